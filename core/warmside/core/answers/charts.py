"""Curves, points, bands, bars and marks over an axis of days, instants, hours or numbers."""

from __future__ import annotations

from enum import StrEnum

from msgspec import Struct

from warmside.core.values.units import Unit

__all__ = ("Axis", "Band", "Bars", "Chart", "Line", "MarkRow")


class Axis(StrEnum):
    """What x means in a chart."""

    DAYS = "days"  # the proleptic Gregorian ordinal of a day, with a fraction for a time in it
    INSTANTS = "instants"  # seconds since 1970-01-01 UTC; shown in the collection's zone
    HOURS = "hours"  # hours of the day, 0 to 24, all of them on the axis
    NUMBERS = "numbers"


class Line(Struct, frozen=True):
    """A curve or points; `y` None breaks the line. `points` draws marks instead of a line.

    Where a chart has more than three curves, each is also named at its end.
    """

    title: str
    x: tuple[float, ...]
    y: tuple[float | None, ...]
    points: bool = False


class Band(Struct, frozen=True):
    """A shaded range between two curves over the same x."""

    title: str
    x: tuple[float, ...]
    low: tuple[float, ...]
    high: tuple[float, ...]


class Bars(Struct, frozen=True):
    """Upright bars from zero to y, each `width` wide on the x axis and in the middle of its x.

    The bars of several of a chart share that width side by side.
    """

    title: str
    x: tuple[float, ...]
    y: tuple[float | None, ...]
    width: float = 0.8


class MarkRow(Struct, frozen=True):
    """Marks in a strip below a chart (meals, sheds): one x each, all with one sign."""

    title: str
    x: tuple[float, ...]
    sign: str = "|"


class Chart(Struct, frozen=True):
    """Curves, points, bands, bars and marks over one axis; y is in `y_unit` as stored.

    `low` has it drawn half as high, where it is one thing of many on a page.
    """

    key: str
    title: str
    x_title: str
    y_title: str
    y_unit: Unit
    lines: tuple[Line, ...] = ()
    bands: tuple[Band, ...] = ()
    marks: tuple[MarkRow, ...] = ()
    axis: Axis = Axis.DAYS
    bars: tuple[Bars, ...] = ()
    low: bool = False
