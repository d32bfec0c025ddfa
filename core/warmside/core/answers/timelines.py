"""Rows of spans and marks over a calendar."""

from __future__ import annotations

from datetime import date

from msgspec import Struct

__all__ = ("Moment", "Span", "Timeline", "TimelineRow")


class Span(Struct, frozen=True):
    """A stretch of days on a timeline row, both ends included; `label` is short."""

    start: date
    end: date
    label: str
    strong: bool = True


class Moment(Struct, frozen=True):
    """A day marked on a timeline row with one sign."""

    day: date
    sign: str
    label: str


class TimelineRow(Struct, frozen=True):
    """One line of a timeline."""

    title: str
    spans: tuple[Span, ...] = ()
    moments: tuple[Moment, ...] = ()


class Timeline(Struct, frozen=True):
    """Rows of spans and marks over the same days."""

    key: str
    title: str
    start: date
    end: date
    rows: tuple[TimelineRow, ...]
    today: date | None = None
