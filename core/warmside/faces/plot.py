"""A chart made ready to draw: y in the units shown, limits found, unusable points left out."""

from __future__ import annotations

import math
from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace
from datetime import date

from warmside.core.answers.parts import Band, Chart, Line
from warmside.core.values.quantities import Display, convert_for_display
from warmside.faces.ticks import Tick, date_ticks, number_ticks

_ROOM_ABOVE = 0.05
_NUMBER_ROOM = 10


@dataclass(frozen=True, slots=True)
class Plot:
    """The chart with y in `unit`, and the ends of both axes."""

    chart: Chart
    unit: str
    x_low: float
    x_high: float
    y_low: float
    y_high: float

    @property
    def y_words(self) -> str:
        """What stands at the y axis."""
        return f"{self.chart.y_title} ({self.unit})" if self.unit else self.chart.y_title

    def x_ticks(self, room: float) -> tuple[Tick, ...]:
        """Labelled places on the x axis, dates or numbers; `room` is its length in letters."""
        if self.chart.dates:
            return date_ticks(self.x_low, self.x_high, room)
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


def ready_to_draw(chart: Chart, display: Display) -> Plot | None:
    """The plot of a chart; None where there is no point, band or mark to show."""
    lines = tuple(_line(line, chart, display) for line in chart.lines)
    bands = tuple(_band(band, chart, display) for band in chart.bands)
    marks = tuple(
        replace(row, x=tuple(x for x in row.x if _usable(x, chart))) for row in chart.marks
    )
    xs = [x for group in (lines, bands, marks) for part in group for x in part.x]
    ys = [y for line in lines for y in line.y if y is not None]
    ys += [y for band in bands for y in (*band.low, *band.high)]
    if not xs:
        return None
    shown = replace(chart, lines=lines, bands=bands, marks=marks)
    _, unit = convert_for_display(max(ys, default=0.0), chart.y_unit, display)
    return Plot(shown, unit, *_x_ends(xs, chart.dates), *_y_ends(ys))


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


def _line(line: Line, chart: Chart, display: Display) -> Line:
    kept = [
        (x, _shown(y, chart, display))
        for x, y in zip(line.x, line.y, strict=False)
        if _usable(x, chart)
    ]
    return replace(line, x=tuple(x for x, _ in kept), y=tuple(y for _, y in kept))


def _band(band: Band, chart: Chart, display: Display) -> Band:
    kept = []
    for x, low, high in zip(band.x, band.low, band.high, strict=False):
        below, above = _shown(low, chart, display), _shown(high, chart, display)
        if _usable(x, chart) and below is not None and above is not None:
            kept.append((x, below, above))
    xs, lows, highs = zip(*kept, strict=True) if kept else ((), (), ())
    return replace(band, x=xs, low=lows, high=highs)


def _usable(x: float, chart: Chart) -> bool:
    """Whether x can be placed: a number, and a day of the calendar where it means one."""
    return math.isfinite(x) and (not chart.dates or 1 < x < date.max.toordinal())


def _shown(y: float | None, chart: Chart, display: Display) -> float | None:
    if y is None or not math.isfinite(y):
        return None
    return convert_for_display(y, chart.y_unit, display)[0]


def _x_ends(xs: Iterable[float], dates: bool) -> tuple[float, float]:
    low, high = min(xs), max(xs)
    if low < high:
        return low, high
    return (low - 1, high + 1) if dates else (low - 0.5, high + 0.5)


def _y_ends(ys: list[float]) -> tuple[float, float]:
    """The limits with a little room, but not below zero for what is never negative."""
    if not ys:
        return 0.0, 1.0
    low, high = min(ys), max(ys)
    room = (high - low) * _ROOM_ABOVE or abs(high) * _ROOM_ABOVE or 1.0
    return (0.0 if low >= 0 > low - room else low - room), high + room
