"""Answers are values: what a command returns and a report section holds, before any face.

Every face (terminal, JSON, PDF, SVG) renders the same parts. Numbers are in stored units; the
faces convert them to the collection's units. Text is plain: the faces escape it.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from datetime import date, datetime
from enum import StrEnum

from warmside.core.values.basis import Basis, Estimate
from warmside.core.values.units import Unit


class Kind(StrEnum):
    """What a cell holds when it is no quantity."""

    TEXT = "text"
    CODE = "code"
    LATIN = "latin"  # a scientific name, set in italics
    DATE = "date"
    MOMENT = "moment"
    YESNO = "yesno"
    LIST = "list"  # a tuple of short texts or numbers


Cell = str | int | float | bool | date | datetime | Estimate | tuple[str | int, ...] | None


class Tone(StrEnum):
    """How words are meant; the faces say it in words too, never by colour alone."""

    PLAIN = "plain"
    CAUTION = "caution"
    HINT = "hint"


@dataclass(frozen=True, slots=True)
class Words:
    """A paragraph."""

    text: str
    tone: Tone = Tone.PLAIN


@dataclass(frozen=True, slots=True)
class Fact:
    """One named value; in JSON a key at the top of the object, ending in the unit.

    `basis` is said below the value in text and under `<key>_basis` in JSON.
    """

    key: str
    title: str
    value: Cell
    kind: Kind | Unit = Kind.TEXT
    basis: Basis | None = None


@dataclass(frozen=True, slots=True)
class Column:
    """A column of a table; `key` plus the unit's ending is the key in JSON.

    `text` False leaves the column out of the terminal and the page, where width is short; `below`
    lets the terminal put it under its row where it would not fit beside it.
    """

    key: str
    title: str
    kind: Kind | Unit = Kind.TEXT
    text: bool = True
    below: bool = False


@dataclass(frozen=True, slots=True)
class Table:
    """Rows under columns; `key` names the list in JSON. `empty` is said when there is no row.

    `breaks` are words said before the row of that index (wash hands before the next group).
    """

    key: str
    columns: tuple[Column, ...]
    rows: tuple[tuple[Cell, ...], ...]
    title: str = ""
    empty: str = "nothing on record"
    breaks: tuple[tuple[int, str], ...] = ()


@dataclass(frozen=True, slots=True)
class Line:
    """A curve or points; `y` None breaks the line. `points` draws marks instead of a line."""

    title: str
    x: tuple[float, ...]
    y: tuple[float | None, ...]
    points: bool = False


@dataclass(frozen=True, slots=True)
class Band:
    """A shaded range between two curves over the same x."""

    title: str
    x: tuple[float, ...]
    low: tuple[float, ...]
    high: tuple[float, ...]


@dataclass(frozen=True, slots=True)
class MarkRow:
    """Marks in a strip below a chart (meals, sheds): one x each, all with one sign."""

    title: str
    x: tuple[float, ...]
    sign: str = "|"


@dataclass(frozen=True, slots=True)
class Chart:
    """A curve with bands and marks. With `dates`, x is a proleptic Gregorian ordinal day."""

    key: str
    title: str
    x_title: str
    y_title: str
    y_unit: Unit
    lines: tuple[Line, ...] = ()
    bands: tuple[Band, ...] = ()
    marks: tuple[MarkRow, ...] = ()
    dates: bool = True


@dataclass(frozen=True, slots=True)
class Span:
    """A stretch of days on a timeline row, both ends included; `label` is short."""

    start: date
    end: date
    label: str
    strong: bool = True


@dataclass(frozen=True, slots=True)
class Moment:
    """A day marked on a timeline row with one sign."""

    day: date
    sign: str
    label: str


@dataclass(frozen=True, slots=True)
class TimelineRow:
    """One line of a timeline."""

    title: str
    spans: tuple[Span, ...] = ()
    moments: tuple[Moment, ...] = ()


@dataclass(frozen=True, slots=True)
class Timeline:
    """Rows of spans and marks over the same days."""

    key: str
    title: str
    start: date
    end: date
    rows: tuple[TimelineRow, ...]
    today: date | None = None


Part = Words | Fact | Table | Chart | Timeline


@dataclass(frozen=True, slots=True)
class Section:
    """A titled part of a report; `order` sorts sections of all plugins."""

    title: str
    parts: tuple[Part, ...]
    order: int = 500


@dataclass(frozen=True, slots=True)
class Answer:
    """What a command answers.

    `warnings` go to stderr; `extra` holds JSON that has no place on a terminal.
    """

    title: str = ""
    parts: tuple[Part, ...] = ()
    sections: tuple[Section, ...] = ()
    warnings: tuple[str, ...] = ()
    extra: Mapping[str, object] = field(default_factory=dict)
    exit_code: int = 0


def paragraphs(*texts: str, tone: Tone = Tone.PLAIN) -> tuple[Words, ...]:
    """Paragraphs of one tone."""
    return tuple(Words(p, tone) for p in texts)


def said(text: str, *more: Part, hints: Sequence[str] = ()) -> Answer:
    """An answer that is a sentence, with further parts and hints below."""
    return Answer(parts=(Words(text), *more, *paragraphs(*hints, tone=Tone.HINT)))
