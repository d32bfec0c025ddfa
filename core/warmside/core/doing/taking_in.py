"""Taking a sheet in: as it stands, where its columns are those of the mapping; else looked at.

A file of our own columns is read as it stands, row by row, and nothing about it is believed.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Iterable, Mapping, Sequence
from pathlib import Path

from msgspec import Struct

from warmside.core.asking.ask import Ask
from warmside.core.csv.events import check_columns
from warmside.core.csv.mapping import OWN_DATE, CsvMapping
from warmside.core.csv.rows import CsvFile, CsvRow, read_csv, rows
from warmside.core.csv.sheet.around import Around
from warmside.core.csv.sheet.looking import look
from warmside.core.csv.sheet.opening import is_spreadsheet, open_grid
from warmside.core.csv.sheet.usual_words import folded
from warmside.core.session.session import Session
from warmside.core.values.errors import BadInput, UnknownWord, WarmsideError
from warmside.core.values.numbered_days import ORDERS
from warmside.core.values.units import Unit

Unknown = Callable[[Mapping[str, Mapping[str, int]]], Sequence[UnknownWord]]


class Taken(Struct, frozen=True):
    """Rows to be read by a mapping; `saved` is the mapping for next time, `about` how many rows."""

    columns: tuple[str, ...]
    rows: Iterable[CsvRow]
    mapping: CsvMapping
    saved: CsvMapping
    about: int
    believed: tuple[str, ...] = ()
    left_out: tuple[int, ...] = ()
    looked: bool = False


def taken_in(
    session: Session,
    path: Path,
    encoding: str | None,
    mapping: CsvMapping,
    *,
    confirmed: bool = False,
) -> Taken:
    """The sheet's rows; raises Open where the keeper must say something first.

    Words that no plugin knows are asked about unless the keeper has `confirmed` the sheet.
    """
    with session.ask() as ask:
        unknown: Unknown = (lambda words: ()) if confirmed else ask.unknown_words
        file = plain_file(ask, path, encoding, mapping)
        if file is not None:
            return Taken(file.columns, rows(file), mapping, mapping, file.text.count("\n"))
        seen = look(open_grid(path, encoding), mapping, around(ask, path, unknown))
    about = len(seen.rows)
    left = seen.left_out
    return Taken(
        seen.columns, seen.rows, seen.mapping, seen.saved, about, seen.believed, left, True
    )


def around(ask: Ask, path: Path, unknown: Unknown) -> Around:
    """What is known beside the sheet."""
    animals = dict[str, str]()
    for animal in ask.book.animals.values():
        animals[folded(animal.name)] = animals[folded(animal.code)] = animal.code
    display = ask.book.home.display

    def unit(of: Unit) -> str:
        return display.style(of).table.names[0]

    homes = ask.book.enclosures.values()
    places = frozenset(folded(word) for home in homes for word in (home.code, home.name))
    book = ask.book
    names = animals, book.today, path.stem, unit, places, book.home.dates
    return Around(ask.kinds, *names, unknown=unknown)


def plain_file(ask: Ask, path: Path, encoding: str | None, mapping: CsvMapping) -> CsvFile | None:
    """The file, if its first line names the columns of the mapping and its days are as stated."""
    free = mapping.date_format in ORDERS or mapping.cells or mapping.decimal or mapping.words
    if free or mapping.year or mapping.skipped or is_spreadsheet(path):
        return None
    try:
        file = read_csv(path, encoding or "utf-8")
        check_columns(file.columns, mapping)
    except BadInput:
        return None
    return file if _has_fields(ask, file, mapping) and _has_own_days(file, mapping) else None


def _has_fields(ask: Ask, file: CsvFile, mapping: CsvMapping) -> bool:
    """Whether there is a column for the one kind of all rows, where it has fields."""
    if not mapping.kind or mapping.fields:
        return True
    try:
        kind = ask.kind(mapping.kind)
    except WarmsideError:
        return True  # the reader says what is wrong
    own = {name for spec in kind.fields for name in (spec.name, spec.option)}
    return not kind.fields or bool(own & set(file.columns))


def _has_own_days(file: CsvFile, mapping: CsvMapping) -> bool:
    """Whether the first day is written as in our own files, unless a format is stated."""
    first = next((r.cells.get(mapping.date, "") for r in rows(file) if not r.problem), "").strip()
    own = mapping.date_format != OWN_DATE or not first
    return own or re.match(r"\d{4}-\d{1,2}-\d{1,2}", first) is not None
