"""Rows of spans and marks over a calendar."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date

__all__ = ("Moment", "Span", "Timeline", "TimelineRow")


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
