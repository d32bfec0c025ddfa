"""Rows of a spreadsheet as events, each with what is wrong or doubtful about it."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator
from datetime import date, time
from functools import cache, partial
from typing import Any
from zoneinfo import ZoneInfo

from msgspec import Struct

from warmside.core.asking.ask import Ask
from warmside.core.csv.done_column import column_of_done, is_done
from warmside.core.csv.mapping import OWN_DATE, SKIP, CsvMapping, FieldColumn
from warmside.core.csv.rows import CsvRow
from warmside.core.kinds.fields import FieldSpec, Target
from warmside.core.kinds.kind import EventKind, Subject
from warmside.core.kinds.parsing import Readers, parse_field
from warmside.core.record.entities import NewEvent
from warmside.core.record.references import id_of
from warmside.core.record.typed_subjects import enclosure_of
from warmside.core.values.doubled_hour import InOrder
from warmside.core.values.errors import BadInput, WarmsideError
from warmside.core.values.hints import near_miss
from warmside.core.values.moments import When, parse_stated, wall_when

PRESENT = "(yes)"
"""Stands in a cell that says that there was such an event, and nothing more about it."""


class Outcome(Struct, frozen=True):
    """A row as an event, or what is wrong with it, or the field that it leaves unsaid.

    None of these three where the keeper wanted the row left out.
    """

    line: int
    event: NewEvent | None = None
    problem: str = ""
    unsaid: str = ""


class Unsaid(Exception):
    """The sheet does not say what came of it, and no default may be invented."""

    def __init__(self, field: str) -> None:
        super().__init__(field)
        self.field = field


class LeftOut(Exception):
    """The keeper wants such rows left out."""


def check_columns(columns: tuple[str, ...], mapping: CsvMapping) -> None:
    """Raise BadInput where a column that the mapping names, or the date, is missing."""
    wanted = [mapping.date, *(c.column for c in mapping.fields.values())]
    wanted += [] if mapping.kind or kinds_of_fields(mapping) else [mapping.kind_column]
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
        self._when = _when_reader(mapping.date_format, book.home.zone)
        self._subject = cache(self._subject_named)
        self._animal = cache(self._animal_named)
        self._sources = cache(lambda kind: list(self._field_sources(kind, columns)))
        self._gaps = cache(lambda kind: list(self._open_fields(kind)))
        named = () if mapping.kind else kinds_of_fields(mapping)
        self._several = tuple(self._kinds.named(name) for name in named)
        self._stated = not mapping.kind and not self._several
        self._done = column_of_done(columns, (c.column for c in mapping.fields.values()))
        self._cell = cache(partial(_parsed_cell, Readers(self._day, self._referred)))

    def outcomes(self, row: CsvRow) -> Iterator[Outcome]:
        """The row's events, or its problems in the keeper's words; blank cells hold none."""
        if row.problem:
            yield Outcome(row.line, problem=row.problem)
            return
        try:
            if self._done and not is_done(row.cells, self._done):
                yield Outcome(row.line)
                return
            kinds = self._kinds_in(row.cells)
        except WarmsideError as error:
            yield Outcome(row.line, problem=str(error))
            return
        for kind in kinds:
            try:
                event = self._event(row.cells, kind)
            except WarmsideError as error:
                yield Outcome(row.line, problem=str(error))
            except Unsaid as unsaid:
                yield Outcome(row.line, unsaid=unsaid.field)
            except LeftOut:
                yield Outcome(row.line)
            else:
                if event is not None:
                    yield Outcome(row.line, event)

    def _kinds_in(self, cells: dict[str, str]) -> tuple[EventKind, ...]:
        if self._several:
            return self._several
        mapping = self._mapping
        return (self._kind(mapping.kind or cells[mapping.kind_column].strip()),)

    def _event(self, cells: dict[str, str], kind: EventKind) -> NewEvent | None:
        mapping = self._mapping
        data, said = self._data(cells, kind)
        if not said:
            return None
        when = self._when(cells[mapping.date].strip())
        animal = mapping.subject or cells.get(mapping.animal, "").strip()
        place = cells.get(mapping.enclosure, "").strip()
        ids = self._subject(kind.subject, animal, place, when.day)
        for spec, field, answer in self._gaps(kind):
            if spec.name not in data:
                if not answer:
                    raise Unsaid(field)
                if answer == SKIP:
                    raise LeftOut
                data[spec.name] = self._cell(spec, answer, "", False)
        note = cells.get(mapping.note, "").strip()
        return NewEvent(kind.name, when.day, kind.validate(data), *ids, when.at, note)

    def _data(self, cells: dict[str, str], kind: EventKind) -> tuple[dict[str, Any], bool]:
        """The fields that the cells fill, and whether the row says that there was an event."""
        data: dict[str, Any] = {}
        sources = self._sources(kind)
        said = self._stated or not sources
        for spec, column, unit, bare, values in sources:
            text = cells[column].strip()
            text = values.get(text, text)
            if text == PRESENT:
                said = True
            elif text and spec is not None:
                data[spec.name] = self._cell(spec, text, unit, bare)
        return data, said or bool(data)

    def _open_fields(self, kind: EventKind) -> Iterator[tuple[FieldSpec, str, str]]:
        """Fields that a row may leave unsaid and no default may fill, with the keeper's answer."""
        columns = {spec.name for spec, *_ in self._sources(kind) if spec is not None}
        for spec in kind.fields:
            field = f"{kind.name}.{spec.key}"
            answer = self._mapping.unsaid.get(field, "")
            asked = spec.name == "outcome" and (spec.name in columns or bool(self._several))
            if answer or asked or (self._several and spec.required):
                yield spec, field, answer

    def _day(self, text: str) -> date:
        return parse_stated(text, self._mapping.date_format)[0]

    def _referred(self, target: Target, word: str) -> int:
        return id_of(self._book, target, self._mapping.animals.get(word, word))

    def _kind_named(self, word: str) -> EventKind:
        if not word:
            raise BadInput("no kind of event; fill the column or use --kind")
        return self._kinds.named(self._mapping.kinds.get(word, word))

    def _animal_named(self, word: str) -> int:
        meant = self._mapping.animals.get(word, word)
        if meant == SKIP:
            raise LeftOut
        return self._book.animal(meant).id

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
        mapped = dict(self._mapped_fields(kind))
        if "" in mapped:
            yield None, mapped[""].column, "", False, dict(mapped[""].values)
        for spec in kind.fields:
            if spec.name in mapped:
                found = mapped[spec.name]
                yield spec, found.column, found.unit, False, dict(found.values)
            elif not self._several and spec.name in columns:
                yield spec, spec.name, "", True, {}
            elif not self._several and spec.option in columns:
                yield spec, spec.option, "", False, {}

    def _mapped_fields(self, kind: EventKind) -> Iterator[tuple[str, FieldColumn]]:
        """Fields that the mapping names for this kind; "" stands for the kind itself."""
        for name, column in self._mapping.fields.items():
            owner, field = split_field(name)
            if owner == kind.name and not field:
                yield "", column
            elif owner == kind.name or (not owner and _has(kind, field)):
                yield kind.field(field).name, column


def split_field(name: str) -> tuple[str, str]:
    """The kind and the field of `weighed.mass`; `mass` is a field of any kind, `watered.` of none.

    A plugin's kind has a dot itself: `feeding.dusted.powder`.
    """
    kind, _, field = name.rpartition(".")
    return kind, field


def kinds_of_fields(mapping: CsvMapping) -> tuple[str, ...]:
    """The kinds that fields of the mapping name, each once: the events that a row may hold."""
    return tuple(dict.fromkeys(k for k, _ in map(split_field, mapping.fields) if k))


def _has(kind: EventKind, field: str) -> bool:
    wanted = field.replace("-", "_")
    return any(wanted in (s.name, s.option.replace("-", "_")) for s in kind.fields)


def _parsed_cell(readers: Readers, spec: FieldSpec, text: str, unit: str, bare: bool) -> Any:
    typed = f"{text} {unit}" if unit and text[-1:].isdigit() else text
    return parse_field(spec, typed, readers, bare)


def _when_reader(date_format: str, zone: ZoneInfo) -> Callable[[str], When]:
    """Reads dates one row after the other; an hour that comes twice is taken by their order."""
    order = InOrder()

    @cache
    def parsed(text: str) -> tuple[date, time | None]:
        if not text:
            raise BadInput("no date")
        timed = date_format == OWN_DATE and ":" in text
        return parse_stated(text, f"{date_format} HH:mm" if timed else date_format)

    def read(text: str) -> When:
        when = wall_when(*parsed(text), zone, order.choose)
        order.went_on(when.at)
        return when

    return read


def outcomes(
    ask: Ask, mapping: CsvMapping, columns: tuple[str, ...], rows: Iterable[CsvRow]
) -> Iterator[Outcome]:
    """Every row as an event or a problem."""
    check_columns(columns, mapping)
    reader = RowReader(ask, mapping, columns)
    for row in rows:
        yield from reader.outcomes(row)
