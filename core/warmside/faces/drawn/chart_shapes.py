"""A chart on paper: bands at the back, then grid, bars, curves, points; marks in strips."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from msgspec import Struct

from warmside.core.answers.charts import Band, Chart, Line
from warmside.faces.drawn.legend import SAMPLE, Entry, Sample, heading, legend, sign_sample
from warmside.faces.drawn.plot import Plot, ready_to_draw, runs, widest_first
from warmside.faces.drawn.sketch import Point, Sketch
from warmside.faces.drawn.spreading import spread
from warmside.faces.drawn.strokes import GRID, LETTER, MIDDLE, NORMAL, SMALL, Sheet
from warmside.faces.look import Look
from warmside.faces.paper.page_fonts import BOLD, Type, width

NOTHING_TO_DRAW = "nothing on record to draw"
MOST_UNNAMED = 3
"""More curves than these are also named at their ends."""

_HEIGHT, _LOW, _STRIP, _TICK, _EDGE = 170.0, 72.0, 13.0, 3.0, 6.0
_Y_TICKS = 6
_MOST_MARGIN = 100.0
_LEADER, _LABELS_SHARE = 14.0, 0.28


class _Frame(Struct, frozen=True):
    """Where the plot stands on the sheet."""

    plot: Plot
    left: float
    right: float
    top: float

    @property
    def height(self) -> float:
        return _LOW if self.plot.chart.low else _HEIGHT

    @property
    def bottom(self) -> float:
        return self.top + self.height

    def at(self, x: float, y: float) -> Point:
        return self.x(x), self.top + (1 - self.plot.y_share(y)) * self.height

    def x(self, x: float) -> float:
        return self.left + self.plot.x_share(x) * (self.right - self.left)


def chart_sketch(chart: Chart, look: Look, kind: Type, wide: float) -> Sketch:
    """The chart with title and legend; words where there is nothing to draw."""
    sheet = Sheet(kind, wide)
    y = heading(sheet, chart.title, 0)
    plot = ready_to_draw(chart, look)
    if plot is None:
        sheet.words((0, y + NORMAL), NOTHING_TO_DRAW, NORMAL)
        return sheet.end(chart.title, y + NORMAL + 6)
    y = legend(sheet, list(_entries(plot)), y) + 6
    sheet.words((0, y + NORMAL), kind.line(plot.y_words, NORMAL, wide), NORMAL)
    ends = _ends(sheet, plot)
    right = wide - _EDGE - _LEADER - max(map(_breadth, ends)) if ends else wide - _EDGE
    frame = _Frame(plot, _margin(plot, kind), right, y + NORMAL + 8)
    _draw(sheet, frame)
    _name_ends(sheet, frame, ends)
    return sheet.end(chart.title, _strips(sheet, frame, _x_axis(sheet, frame)) + 4)


def _margin(plot: Plot, kind: Type) -> float:
    """Room at the left for the labels of the y axis and the titles of the strips."""
    labels = [label for _, label in plot.y_ticks(_Y_TICKS)]
    labels += [kind.line(row.title, NORMAL, _MOST_MARGIN) for row in plot.chart.marks]
    return max((width(label, NORMAL) for label in labels), default=0) + 8


def _entries(plot: Plot) -> Iterator[Entry]:
    chart = plot.chart
    yield from ((line.title, _curve_sample(n)) for n, line in enumerate(plot.curves))
    yield from ((line.title, _point_sample(n)) for n, line in enumerate(plot.dotted))
    yield from ((band.title, _band_sample(n)) for n, band in enumerate(chart.bands))
    yield from ((bars.title, _bar_sample(n)) for n, bars in enumerate(chart.bars))
    yield from ((row.title, sign_sample(row.sign)) for row in chart.marks)


def _curve_sample(number: int) -> Sample:
    return lambda sheet, x, y: sheet.curve([(x, y), (x + SAMPLE, y)], number)


def _point_sample(number: int) -> Sample:
    return lambda sheet, x, y: sheet.point((x + SAMPLE / 2, y), number)


def _band_sample(number: int) -> Sample:
    return lambda sheet, x, y: sheet.shade(
        [(x, y - 4), (x + SAMPLE, y - 4)], [(x, y + 4), (x + SAMPLE, y + 4)], number
    )


def _bar_sample(number: int) -> Sample:
    return lambda sheet, x, y: sheet.bar((x + SAMPLE / 2 - 4, y - 4), (8, 8), number)


def _draw(sheet: Sheet, frame: _Frame) -> None:
    for number, band in widest_first(frame.plot.chart.bands):
        _band(sheet, frame, band, number)
    _y_axis(sheet, frame)
    for number, left, right, y in frame.plot.bars():
        _bar(sheet, frame.at(left, y), frame.at(right, frame.plot.base), number)
    for number, line in enumerate(frame.plot.curves):
        for run in runs(line):
            sheet.curve([frame.at(x, y) for x, y in run], number)
    for number, line in enumerate(frame.plot.dotted):
        for run in runs(line):
            for x, y in run:
                sheet.point(frame.at(x, y), number)


def _band(sheet: Sheet, frame: _Frame, band: Band, number: int) -> None:
    if not band.x:
        return
    upper = [frame.at(x, y) for x, y in zip(band.x, band.high, strict=True)]
    lower = [frame.at(x, y) for x, y in zip(band.x, band.low, strict=True)]
    sheet.shade(upper, lower, number)


def _bar(sheet: Sheet, end: Point, foot: Point, number: int) -> None:
    """A bar from its foot on the base, up or down."""
    top, height = min(end[1], foot[1]), abs(end[1] - foot[1])
    sheet.bar((end[0], top), (max(foot[0] - end[0], 0.5), height), number)


def _y_axis(sheet: Sheet, frame: _Frame) -> None:
    for value, label in frame.plot.y_ticks(_Y_TICKS):
        _, y = frame.at(frame.plot.x_low, value)
        sheet.line((frame.left, y), (frame.right, y), 0.4, GRID)
        sheet.line((frame.left - _TICK, y), (frame.left, y))
        sheet.words((frame.left - 5 - width(label, NORMAL), y + 3), label, NORMAL)
    sheet.line((frame.left, frame.top), (frame.left, frame.bottom))


_End = tuple[Line, str]


def _ends(sheet: Sheet, plot: Plot) -> list[_End]:
    """The curves to name at their ends, with the words; none where there are few of them."""
    if len(plot.curves) <= MOST_UNNAMED:
        return []
    room = sheet.width * _LABELS_SHARE
    drawn = [line for line in plot.curves if runs(line)]
    return [(line, sheet.type.line(line.title, NORMAL, room)) for line in drawn]


def _breadth(end: _End) -> float:
    return width(end[1], NORMAL)


def _name_ends(sheet: Sheet, frame: _Frame, ends: Sequence[_End]) -> None:
    """A label at the right for each curve, with a leader from the curve's last point."""
    places = [frame.at(*runs(line)[-1][-1]) for line, _ in ends]
    heights = spread([y for _, y in places], NORMAL + 1, frame.top, frame.bottom)
    for (_, label), (x, y), height in zip(ends, places, heights or (), strict=False):
        start = frame.right + _LEADER
        sheet.line((x, y), (start - 2, height), 0.4, MIDDLE)
        sheet.words((start, height + 3), label, NORMAL)


def _x_axis(sheet: Sheet, frame: _Frame) -> float:
    """Base line, ticks and labels, and what x is unless it is dates; the y below them."""
    sheet.line((frame.left, frame.bottom), (frame.right, frame.bottom))
    y, free = frame.bottom + _TICK + NORMAL + 2, 0.0
    for value, label in frame.plot.x_ticks((frame.right - frame.left) / LETTER):
        x = frame.x(value)
        sheet.line((x, frame.bottom), (x, frame.bottom + _TICK))
        half = width(label, NORMAL) / 2
        middle = min(max(x, half), sheet.width - half)
        if middle - half >= free:
            sheet.centred((middle, y), label, NORMAL)
            free = middle + half + 2
    words = sheet.type.line(frame.plot.x_words, NORMAL, frame.right - frame.left)
    if not words:
        return y + 4
    sheet.words((frame.right - width(words, NORMAL), y + NORMAL + 4), words, NORMAL)
    return y + NORMAL + 8


def _strips(sheet: Sheet, frame: _Frame, y: float) -> float:
    for row in frame.plot.chart.marks:
        base = y + _STRIP - 3
        title = sheet.type.line(row.title, NORMAL, _MOST_MARGIN)
        sheet.words((frame.left - 8 - width(title, NORMAL), base), title, NORMAL)
        sign = sheet.type.line(row.sign, SMALL, sheet.width, BOLD)
        for x in row.x:
            sheet.centred((frame.x(x), base), sign, SMALL, BOLD)
        y += _STRIP
    return y
