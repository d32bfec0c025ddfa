"""A new plugin of the house's shape, written into a folder: a package with tests that pass."""

from __future__ import annotations

import shutil
from collections.abc import Iterator
from importlib.resources import files
from importlib.resources.abc import Traversable
from pathlib import Path
from string import Template

from msgspec import Struct

from warmside.core.answers.parts import Answer, Column, Table, Tone, paragraphs
from warmside.core.plugins.discovery import installed
from warmside.core.plugins.manifest import HOOK_LEVEL, NAME_RULE, RESERVED
from warmside.core.values.errors import BadInput, FileProblem, Refused
from warmside.core.values.hints import quoted

TEMPLATES = "data", "scaffold"
ENDING = ".txt"  # so that no tool takes a template for what it makes
LONGEST_NAME = 20


class Scaffolding(Struct, frozen=True):
    """The name of the new plugin, and the folder that is made for it."""

    name: str
    folder: Path


def scaffold(wanted: Scaffolding) -> Answer:
    """Write the package; raises BadInput for a bad name, Refused for a folder that is there."""
    check_name(wanted.name)
    if wanted.folder.exists():
        raise Refused(f"{wanted.folder} is there already; name a folder that is not")
    rows = tuple((str(path),) for path in _write(wanted))
    return Answer(
        f"Plugin {wanted.name}",
        (
            Table("files", (Column("file", "file"),), rows, f"Written into {wanted.folder}"),
            *paragraphs(*_next(wanted), tone=Tone.HINT),
        ),
    )


def check_name(name: str) -> None:
    """Raise BadInput or Refused unless a new plugin may have that name."""
    if not NAME_RULE.fullmatch(name) or len(name) > LONGEST_NAME:
        raise BadInput(
            f"a plugin's name is 1 to {LONGEST_NAME} lower-case letters and digits, a letter "
            f"first, not {quoted(name)}"
        )
    if name in RESERVED:
        raise BadInput(f"{name} is how warmside's own tables begin; name the plugin otherwise")
    if name in installed():
        raise Refused(f"there is a plugin {name} already; name yours otherwise")


def _write(wanted: Scaffolding) -> list[Path]:
    """All files, or none where one cannot be written; their places within the folder."""
    words = {"name": wanted.name, "level": ", ".join(map(str, HOOK_LEVEL))}
    try:
        wanted.folder.mkdir(parents=True)
        made = [_filled(place, template, words) for place, template in templates(wanted.name)]
        for place, text in made:
            target = wanted.folder / place
            target.parent.mkdir(parents=True, exist_ok=True)
            target.write_text(text, encoding="utf-8")
    except OSError as error:
        shutil.rmtree(wanted.folder, ignore_errors=True)
        raise FileProblem(f"cannot write {wanted.folder}: {error.strerror}") from error
    return sorted(place for place, _ in made)


def templates(name: str) -> Iterator[tuple[Path, Traversable]]:
    """Each file of the package, its place within the folder first."""
    root = files("warmside.core.doing").joinpath(*TEMPLATES)
    yield from _below(root, Path(), name)


def _below(folder: Traversable, place: Path, name: str) -> Iterator[tuple[Path, Traversable]]:
    for entry in folder.iterdir():
        here = place / entry.name.removesuffix(ENDING).replace("NAME", name)
        if entry.is_dir():
            yield from _below(entry, here, name)
        else:
            yield here, entry


def _filled(place: Path, template: Traversable, words: dict[str, str]) -> tuple[Path, str]:
    return place, Template(template.read_text("utf-8")).substitute(words)


def _next(wanted: Scaffolding) -> tuple[str, ...]:
    package = wanted.folder / "src" / f"warmside_{wanted.name}"
    return (
        f"pip install -e '{wanted.folder}[test]' (into the Python that runs warmside)",
        f"python -m pytest {wanted.folder} (its tests)",
        f"warmside plugin enable {wanted.name} (in your collection)",
        f"change what is there: {package} (its README says what stands where)",
    )
