"""Rows of a spreadsheet as events, each with what is wrong or doubtful about it."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator
from datetime import date
from functools import cache, partial
from typing import Any
from zoneinfo import ZoneInfo

from msgspec import Struct

from warmside.core.asking.ask import Ask
from warmside.core.csv.mapping import CsvMapping
from warmside.core.csv.rows import CsvRow
from warmside.core.kinds.fields import FieldSpec, Target
from warmside.core.kinds.kind import EventKind, Subject
from warmside.core.kinds.parsing import Readers, parse_field
from warmside.core.record.entities import NewEvent
from warmside.core.record.references import id_of
from warmside.core.record.typed_subjects import enclosure_of
from warmside.core.values.errors import BadInput, WarmsideError
from warmside.core.values.hints import near_miss
from warmside.core.values.moments import When, parse_stated, wall_when


class Outcome(Struct, frozen=True):
    """A row as an event, or what is wrong with it."""

    line: int
    event: NewEvent | None = None
    problem: str = ""


def check_columns(columns: tuple[str, ...], mapping: CsvMapping) -> None:
    """Raise BadInput where a column that the mapping names, or the date, is missing."""
    wanted = [mapping.date, *(c.column for c in mapping.fields.values())]
    wanted += [] if mapping.kind else [mapping.kind_column]
    plain = CsvMapping()
    for name in ("animal", "enclosure", "note"):
        if getattr(mapping, name) != getattr(plain, name):
            wanted.append(getattr(mapping, name))
    for column in wanted:
        if column and column not in columns:
            raise BadInput(
                f"the file has no column {column!r}{near_miss(column, columns)}; "
                f"its columns are: {', '.join(columns)}"
            )


class RowReader:
    """Turns rows into events; what repeats from row to row is worked out once."""

    def __init__(self, ask: Ask, mapping: CsvMapping, columns: tuple[str, ...]) -> None:
        book = ask.book
        self._book = book
        self._kinds = ask.kinds
        self._mapping = mapping
        self._kind = cache(self._kind_named)
        self._when = cache(_when_reader(mapping.date_format, book.home.zone))
        self._subject = cache(self._subject_named)
        self._animal = cache(lambda word: book.animal(mapping.animals.get(word, word)).id)
        self._sources = cache(lambda kind: list(self._field_sources(kind, columns)))
        self._cell = cache(partial(_parsed_cell, Readers(self._day, self._referred)))

    def outcome(self, row: CsvRow) -> Outcome:
        """The row's event, or its problem in the keeper's words."""
        if row.problem:
            return Outcome(row.line, problem=row.problem)
        try:
            return Outcome(row.line, self._event(row.cells))
        except WarmsideError as error:
            return Outcome(row.line, problem=str(error))

    def _event(self, cells: dict[str, str]) -> NewEvent:
        mapping = self._mapping
        kind = self._kind(mapping.kind or cells[mapping.kind_column].strip())
        when = self._when(cells[mapping.date].strip())
        animal = mapping.subject or cells.get(mapping.animal, "").strip()
        place = cells.get(mapping.enclosure, "").strip()
        ids = self._subject(kind.subject, animal, place, when.day)
        data: dict[str, Any] = {}
        for spec, column, unit, bare, values in self._sources(kind):
            text = cells[column].strip()
            if text:
                data[spec.name] = self._cell(spec, values.get(text, text), unit, bare)
        note = cells.get(mapping.note, "").strip()
        return NewEvent(kind.name, when.day, kind.validate(data), *ids, when.at, note)

    def _day(self, text: str) -> date:
        return parse_stated(text, self._mapping.date_format)[0]

    def _referred(self, target: Target, word: str) -> int:
        return id_of(self._book, target, self._mapping.animals.get(word, word))

    def _kind_named(self, word: str) -> EventKind:
        if not word:
            raise BadInput("no kind of event; fill the column or use --kind")
        return self._kinds.named(self._mapping.kinds.get(word, word))

    def _subject_named(
        self, subject: Subject, animal: str, place: str, day: date
    ) -> tuple[int | None, int | None]:
        book = self._book
        if subject is Subject.ENCLOSURE:
            name = place or animal
            if not name:
                raise BadInput("no enclosure named")
            return None, enclosure_of(book, self._mapping.animals.get(name, name), day)
        if not animal:
            raise BadInput("no animal named")
        id = self._animal(animal)
        placing = subject is Subject.PLACING and place
        return id, book.enclosure(place).id if placing else None

    def _field_sources(self, kind: EventKind, columns: tuple[str, ...]) -> Iterator[Any]:
        """Each field of the kind with its column, the unit to add, and whether it may be bare."""
        mapped = {kind.field(n).name: c for n, c in self._mapping.fields.items() if _has(kind, n)}
        for spec in kind.fields:
            if spec.name in mapped:
                found = mapped[spec.name]
                yield spec, found.column, found.unit, False, dict(found.values)
            elif spec.name in columns:
                yield spec, spec.name, "", True, {}
            elif spec.option in columns:
                yield spec, spec.option, "", False, {}


def _has(kind: EventKind, field: str) -> bool:
    wanted = field.replace("-", "_")
    return any(wanted in (s.name, s.option.replace("-", "_")) for s in kind.fields)


def _parsed_cell(readers: Readers, spec: FieldSpec, text: str, unit: str, bare: bool) -> Any:
    typed = f"{text} {unit}" if unit and text[-1:].isdigit() else text
    return parse_field(spec, typed, readers, bare)


def _when_reader(date_format: str, zone: ZoneInfo) -> Callable[[str], When]:
    def read(text: str) -> When:
        if not text:
            raise BadInput("no date")
        day, clock = parse_stated(text, date_format)
        return wall_when(day, clock, zone)

    return read


def outcomes(
    ask: Ask, mapping: CsvMapping, columns: tuple[str, ...], rows: Iterable[CsvRow]
) -> Iterator[Outcome]:
    """Every row as an event or a problem."""
    check_columns(columns, mapping)
    reader = RowReader(ask, mapping, columns)
    for row in rows:
        yield reader.outcome(row)
