"""A chart made ready to draw: y in the units shown, limits found, unusable points left out."""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator, Sequence
from datetime import date
from typing import TypeVar
from zoneinfo import ZoneInfo

from msgspec import Struct
from msgspec.structs import replace

from warmside.core.answers.charts import Axis, Band, Bars, Chart, Line
from warmside.core.values.quantities import convert_for_display
from warmside.faces.drawn.clock_ticks import hour_ticks, instant_ticks, local_words
from warmside.faces.drawn.ticks import Tick, date_ticks, number_ticks
from warmside.faces.look import Look

_ROOM_ABOVE = 0.05
_NUMBER_ROOM = 10
_INSTANTS = (-62_000_000_000.0, 253_000_000_000.0)  # seconds from year 6 to 9987

_Series = TypeVar("_Series", Line, Bars)


class Plot(Struct, frozen=True):
    """The chart with y in `unit`, and the ends of both axes; bars stand on `base`."""

    chart: Chart
    unit: str
    zone: ZoneInfo
    x_low: float
    x_high: float
    y_low: float
    y_high: float
    base: float

    @property
    def y_words(self) -> str:
        """What stands at the y axis."""
        return f"{self.chart.y_title} ({self.unit})" if self.unit else self.chart.y_title

    @property
    def x_words(self) -> str:
        """What stands below the x axis; nothing where its dates say it all."""
        if self.chart.axis is Axis.DAYS:
            return ""
        if self.chart.axis is not Axis.INSTANTS:
            return self.chart.x_title
        ends = (local_words(self.x_low, self.zone), local_words(self.x_high, self.zone))
        return f"{self.chart.x_title}, {ends[0]} to {ends[1]}"

    @property
    def curves(self) -> list[Line]:
        """The lines that are drawn through their points."""
        return [line for line in self.chart.lines if not line.points]

    @property
    def dotted(self) -> list[Line]:
        """The lines whose points alone are drawn."""
        return [line for line in self.chart.lines if line.points]

    def x_ticks(self, room: float) -> tuple[Tick, ...]:
        """Labelled places on the x axis; `room` is its length in letters."""
        match self.chart.axis:
            case Axis.DAYS:
                return date_ticks(self.x_low, self.x_high, room)
            case Axis.INSTANTS:
                return instant_ticks(self.x_low, self.x_high, room, self.zone)
            case Axis.HOURS:
                return hour_ticks(room)
            case Axis.NUMBERS:
                return number_ticks(self.x_low, self.x_high, max(1, int(room // _NUMBER_ROOM)))

    def y_ticks(self, most: int) -> tuple[Tick, ...]:
        """Labelled places on the y axis."""
        return number_ticks(self.y_low, self.y_high, most)

    def x_share(self, x: float) -> float:
        """How far along the x axis, 0 to 1."""
        return (x - self.x_low) / (self.x_high - self.x_low)

    def y_share(self, y: float) -> float:
        """How far up the y axis, 0 to 1."""
        return (y - self.y_low) / (self.y_high - self.y_low)

    def bars(self) -> Iterator[tuple[int, float, float, float]]:
        """The number of the series, left and right end and height of every bar."""
        for number, bars in enumerate(self.chart.bars):
            slot = bars.width / len(self.chart.bars)
            for x, y in zip(bars.x, bars.y, strict=True):
                if y is not None:
                    left = x - bars.width / 2 + number * slot
                    yield number, max(left, self.x_low), min(left + slot, self.x_high), y


def ready_to_draw(chart: Chart, look: Look) -> Plot | None:
    """The plot of a chart; None where there is no point, band, bar or mark to show."""
    lines = tuple(_kept(line, chart, look) for line in chart.lines)
    bands = tuple(_band(band, chart, look) for band in chart.bands)
    bars = tuple(_kept(bars, chart, look) for bars in chart.bars)
    marks = tuple(
        replace(row, x=tuple(x for x in row.x if usable(x, chart))) for row in chart.marks
    )
    xs = [x for group in (lines, bands, marks) for part in group for x in part.x]
    xs += [x + side * b.width / 2 for b in bars for x in b.x for side in (-1, 1)]
    ys = [y for line in lines for y in line.y if y is not None]
    ys += [y for series in bars for y in series.y if y is not None]
    ys += [y for band in bands for y in (*band.low, *band.high)]
    if not xs:
        return None
    shown = replace(chart, lines=lines, bands=bands, marks=marks, bars=bars)
    base, unit = convert_for_display(0.0, chart.y_unit, look.display)
    if ys:
        _, unit = convert_for_display(max(ys), chart.y_unit, look.display)
    ends = _y_ends([*ys, base] if bars else ys, base if bars else None)
    return Plot(shown, unit, look.zone, *_x_ends(xs, chart.axis), *ends, base)


def widest_first(bands: Sequence[Band]) -> list[tuple[int, Band]]:
    """Numbered bands in the order to draw them, so that none hides one within it."""
    return sorted(enumerate(bands), key=lambda item: -_breadth(item[1]))


def _breadth(band: Band) -> float:
    return max((high - low for low, high in zip(band.low, band.high, strict=True)), default=0.0)


def runs(line: Line) -> list[list[tuple[float, float]]]:
    """The unbroken stretches of a line."""
    stretches: list[list[tuple[float, float]]] = [[]]
    for x, y in zip(line.x, line.y, strict=True):
        if y is None:
            stretches.append([])
        else:
            stretches[-1].append((x, y))
    return [stretch for stretch in stretches if stretch]


def _kept(series: _Series, chart: Chart, look: Look) -> _Series:
    kept = [
        (x, _shown(y, chart, look))
        for x, y in zip(series.x, series.y, strict=False)
        if usable(x, chart)
    ]
    return replace(series, x=tuple(x for x, _ in kept), y=tuple(y for _, y in kept))


def _band(band: Band, chart: Chart, look: Look) -> Band:
    kept = []
    for x, low, high in zip(band.x, band.low, band.high, strict=False):
        below, above = _shown(low, chart, look), _shown(high, chart, look)
        if usable(x, chart) and below is not None and above is not None:
            kept.append((x, below, above))
    xs, lows, highs = zip(*kept, strict=True) if kept else ((), (), ())
    return replace(band, x=xs, low=lows, high=highs)


def usable(x: float, chart: Chart) -> bool:
    """Whether x can be placed: a number, within the calendar or the day where it means one."""
    match chart.axis:
        case Axis.DAYS:
            return 1 < x < date.max.toordinal()
        case Axis.INSTANTS:
            return _INSTANTS[0] < x < _INSTANTS[1]
        case Axis.HOURS:
            return 0 <= x <= 24
        case Axis.NUMBERS:
            return math.isfinite(x)


def _shown(y: float | None, chart: Chart, look: Look) -> float | None:
    if y is None or not math.isfinite(y):
        return None
    return convert_for_display(y, chart.y_unit, look.display)[0]


_LONE = {Axis.DAYS: 1.0, Axis.INSTANTS: 3600.0, Axis.NUMBERS: 0.5}


def _x_ends(xs: Iterable[float], axis: Axis) -> tuple[float, float]:
    if axis is Axis.HOURS:
        return 0.0, 24.0
    low, high = min(xs), max(xs)
    return (low, high) if low < high else (low - _LONE[axis], high + _LONE[axis])


def _y_ends(ys: list[float], base: float | None) -> tuple[float, float]:
    """The limits with a little room, but not below zero for what is never negative."""
    if not ys:
        return 0.0, 1.0
    low, high = min(ys), max(ys)
    room = (high - low) * _ROOM_ABOVE or abs(high) * _ROOM_ABOVE or 1.0
    if base is not None and low == base:
        return low, high + room
    return (0.0 if low >= 0 > low - room else low - room), high + room
