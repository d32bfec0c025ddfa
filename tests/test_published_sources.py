"""What is marked as published names its author, its year and its place: a reader can find it."""

from __future__ import annotations

import ast
import re
from collections.abc import Iterator
from pathlib import Path
from typing import Any, TypeGuard

import pytest
import tomli

TOP = Path(__file__).parents[1]
ROOTS = [TOP / name for name in ("core", "plugins", "cli", "examples")]
YEAR = re.compile(r"\b(1[6-9]|20)\d\d\b")
AUTHOR = re.compile(r"\b[A-Z][\w'’-]{2,}|\bISO \d|\bAZA\b")
# Volume and page, a numbered part of a book or law, an identifier, or a named data set.
PLACE = re.compile(
    r"\d+ ?[:(] ?e?\w*\d|\bdoi\b|\bTable\b|\bch\. ?\d|\bAnnex \d|\bISO \d+:\d+"
    r"|\bDryad\b|\bdata\b|\be\d{6,}|\bBiogeogr\b"
    r"|\b[A-Z][a-z]+ \d{1,3}\b(?! [a-z]+ed)",
)


def marked(value: Any) -> Iterator[str]:
    """The sources of all published figures of a file, at any depth."""
    if isinstance(value, list):
        for one in value:
            yield from marked(one)
    elif isinstance(value, dict):
        for key, mark in value.items():
            if (key == "mark" or key.endswith("_mark")) and mark == "published":
                yield str(value.get(key.removesuffix("mark") + "source", value.get("source", "")))
            yield from marked(mark)


def in_tables() -> Iterator[tuple[str, str]]:
    for root in ROOTS:
        for path in sorted(root.rglob("data/**/*.toml")):
            for source in marked(tomli.loads(path.read_text(encoding="utf-8"))):
                yield path.name, source


def in_code() -> Iterator[tuple[str, str]]:
    """`Source("...", Mark.PUBLISHED)`, and settings whose source ends in `[published]`."""
    for root in ROOTS:
        for path in sorted(root.rglob("*.py")):
            text = path.read_text(encoding="utf-8")
            if "Mark.PUBLISHED" in text or "[published]" in text:
                for node in ast.walk(ast.parse(text)):
                    yield from ((path.name, said) for said in _said(node))


def _said(node: ast.AST) -> Iterator[str]:
    if _is_published(node):
        texts = (a.value for a in node.args[:1] if isinstance(a, ast.Constant))
        yield from (text for text in texts if isinstance(text, str))
    text = node.value if isinstance(node, ast.Constant) else None
    if isinstance(text, str) and text.endswith(" [published]"):
        yield text.removesuffix(" [published]")


def _is_published(node: ast.AST) -> TypeGuard[ast.Call]:
    if not isinstance(node, ast.Call) or ast.unparse(node.func) != "Source":
        return False
    return any(ast.unparse(a) == "Mark.PUBLISHED" for a in node.args)


def is_citation(source: str) -> bool:
    return bool(YEAR.search(source) and AUTHOR.search(source) and PLACE.search(source))


@pytest.mark.parametrize(
    ("source", "whole"),
    [
        ("Nagy 2005, J Exp Biol 208:1621-1625", True),
        ("Kaplan 2000", False),
        ("a student veterinary wiki, supportive care of snakes at 30 °C", False),
        ("Camin 1953, as summarised by a python breeder", False),
        ("abstract; 208:1621-1625, 2005", False),
    ],
)
def test_a_citation_is_told_from_hearsay(source: str, whole: bool) -> None:
    assert is_citation(source) == whole


def test_every_published_figure_can_be_found() -> None:
    found = [*in_tables(), *in_code()]
    assert len(found) > 100, "else nothing was looked at"
    assert [one for one in found if not is_citation(one[1])] == []
