"""What the source files of the house import, call and define, each read once."""

from __future__ import annotations

import ast
from collections.abc import Iterator
from functools import cache
from pathlib import Path
from typing import NamedTuple

ROOT = Path(__file__).parents[1]


def sources(folder: str) -> list[Path]:
    """The files of Python below a folder of the house."""
    return sorted(p for p in (ROOT / folder).rglob("*.py") if "__pycache__" not in p.parts)


class Read(NamedTuple):
    """What one look through a file finds."""

    imports: tuple[tuple[str, bool], ...]
    """Every module that it imports, late ones too, and whether only for the type checker."""
    functions: tuple[tuple[str, int], ...]
    """The name of each function, and how many lines its body has."""
    calls: tuple[tuple[str, int], ...]
    """What it calls by a name, and in which line."""


@cache
def read(path: Path) -> Read:
    """What one look finds."""
    nodes = list(ast.walk(ast.parse(path.read_text(encoding="utf-8"))))
    return Read(
        tuple(_imports(path, nodes)),
        tuple(
            (node.name, (node.end_lineno or 0) - node.body[0].lineno + 1)
            for node in nodes
            if isinstance(node, ast.FunctionDef)
        ),
        tuple((said, node.lineno) for node in nodes if (said := _called(node))),
    )


def _called(node: ast.AST) -> str:
    """The last two parts of the name of what is called, or its only one."""
    if not isinstance(node, ast.Call):
        return ""
    function = node.func
    if isinstance(function, ast.Attribute):
        of = function.value
        before = getattr(of, "id", None) or getattr(of, "attr", "")
        return f"{before}.{function.attr}"
    return function.id if isinstance(function, ast.Name) else ""


def imports(path: Path) -> tuple[tuple[str, bool], ...]:
    """Every module that a file imports, late ones too, and whether only for the type checker."""
    return read(path).imports


def _imports(path: Path, nodes: list[ast.AST]) -> Iterator[tuple[str, bool]]:
    typing_only = {
        id(inner)
        for node in nodes
        if isinstance(node, ast.If) and "TYPE_CHECKING" in ast.unparse(node.test)
        for part in node.body
        for inner in ast.walk(part)
    }
    for node in nodes:
        if isinstance(node, ast.Import):
            yield from ((a.name, id(node) in typing_only) for a in node.names)
        elif isinstance(node, ast.ImportFrom):
            assert node.level == 0, f"{path}: relative import"
            yield from ((f"{node.module}.{a.name}", id(node) in typing_only) for a in node.names)
