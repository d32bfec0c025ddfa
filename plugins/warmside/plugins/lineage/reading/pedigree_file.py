"""A pedigree file beside the record: ids as codes, species by their scientific names."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping
from pathlib import Path
from typing import TypeVar

from warmside.api import (
    BadInput,
    Book,
    NotFound,
    PartialDate,
    csv_files,
    entering,
    shipped_species_named,
)
from warmside.plugins.lineage.pedigree_file.rows import FileRow, Kept, Problem

A = TypeVar("A")
T = TypeVar("T")
NEEDED = ("id", "dam", "sire")
HATCHED = ("hatched", "date", "born")
KNOWN_AS = "known as "
"""What the note of an animal begins with whose id is no code."""


def read_file(
    file: Path, encoding: str, book: Book, species: str
) -> tuple[list[FileRow], list[Problem]]:
    """The rows that can be read, and what is wrong with the others."""
    table = csv_files.read_csv(file, encoding)
    missing = [c for c in NEEDED if c not in table.columns]
    if missing:
        raise BadInput(f"{file} needs the columns {', '.join(NEEDED)}; {missing[0]} is missing")
    born = next((c for c in HATCHED if c in table.columns), "")
    reader = _Reader(book, species, born)
    rows = [reader.row(row) for row in csv_files.rows(table)]
    return [r for r in rows if r is not None], reader.bad


class _Reader:
    """Turns cells into rows, and keeps what is wrong with them."""

    def __init__(self, book: Book, species: str, born: str) -> None:
        self.bad: list[Problem] = []
        self._book, self._species, self._born = book, species, born
        self._codes = codes_by_name(book)
        self._on_record = set(self._codes.values())
        self._named: dict[str, str] = {}
        self._spelled: dict[str, str] = {}

    def row(self, row: csv_files.CsvRow) -> FileRow | None:
        """The row, without what cannot be read of it; None where it has no id."""
        cell = {name: text.strip() for name, text in row.cells.items()}
        if row.problem or not cell["id"]:
            self.bad.append((row.line, row.problem or "the id is missing"))
            return None
        line, id = row.line, self._id(cell["id"])
        name = cell.get("name", "")
        self._read(line, entering.name_of, name or id)
        return FileRow(
            line,
            id,
            self._id(cell["dam"]),
            self._id(cell["sire"]),
            self._read(line, entering.sex_of, cell.get("sex", "")) or "unknown",
            self._read(line, self._born_by_now, cell.get(self._born, "")),
            self._read(line, self._species_of, cell.get("species") or self._species_for(id)) or "",
            name,
        )

    def _id(self, text: str) -> str:
        """The code on record, else the id as it was first written."""
        folded = text.casefold()
        return self._codes.get(folded) or self._spelled.setdefault(folded, text)

    def _read(self, line: int, read: Callable[[A], T], text: A) -> T | None:
        try:
            return read(text)
        except (BadInput, NotFound) as error:
            self.bad.append((line, str(error)))
            return None

    def _born_by_now(self, text: str) -> PartialDate | None:
        found = entering.hatched_of(text)
        if found and found.earliest > self._book.today:
            raise BadInput(f"hatch date {found.text} is in the future")
        return found

    def _species_for(self, id: str) -> str | None:
        """What is taken of a row that names no species; None of an animal on record."""
        return None if id in self._on_record else self._species

    def _species_of(self, name: str | None) -> str:
        """The scientific name of a species of the collection, or of one that ships."""
        if name is None:
            return ""
        if not name:
            raise BadInput(NO_SPECIES)
        if name not in self._named:
            try:
                self._named[name] = self._book.species_named(name).scientific
            except NotFound:
                self._named[name] = shipped_species_named(name).scientific
        return self._named[name]


NO_SPECIES = "no species; add a column species, or name it for all: --species NAME"


def codes_by_name(book: Book) -> dict[str, str]:
    """The code of each animal by what a file may call it: code, a name of its own, its old id."""
    found: dict[str, str] = {}
    names = [a.name.casefold() for a in book.animals.values()]
    for animal in book.animals.values():
        if names.count(animal.name.casefold()) == 1:
            found[animal.name.casefold()] = animal.code
    for animal in book.animals.values():
        if animal.note.startswith(KNOWN_AS):
            found[animal.note.removeprefix(KNOWN_AS).casefold()] = animal.code
    return found | {a.code.casefold(): a.code for a in book.animals.values()}


def on_record(book: Book) -> Mapping[str, Kept]:
    """All animals by code, with the candidates for their parents."""
    return {
        a.code: Kept(
            a.sex,
            a.hatched,
            a.species.scientific,
            *(_codes(book, a.id, role) for role in ("dam", "sire")),
        )
        for a in book.animals.values()
    }


def _codes(book: Book, child: int, role: str) -> tuple[str, ...]:
    parents: Iterable[int] = (p.parent_id for p in book.parents.get(child, ()) if p.role == role)
    return tuple(book.animals[id].code for id in parents)
