"""A chart on paper: bands at the back, then the grid, curves and points; marks in strips below."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from reportlab.graphics.shapes import Drawing

from warmside.core.answers.parts import Band, Chart
from warmside.core.values.quantities import Display
from warmside.faces.legend import SAMPLE, Entry, Sample, heading, legend, sign_sample
from warmside.faces.page_fonts import BOLD, Type, width
from warmside.faces.plot import Plot, ready_to_draw, runs, widest_first
from warmside.faces.strokes import DASHES, GRID, LETTER, NORMAL, SMALL, WIDTH, Point, Sheet

NOTHING_TO_DRAW = "nothing on record to draw"
_HEIGHT, _STRIP, _TICK = 170.0, 13.0, 3.0
_Y_TICKS = 6
_MOST_MARGIN = 100.0


@dataclass(frozen=True, slots=True)
class _Frame:
    """Where the plot stands on the sheet."""

    plot: Plot
    left: float
    top: float

    @property
    def bottom(self) -> float:
        return self.top + _HEIGHT

    def at(self, x: float, y: float) -> Point:
        return self.x(x), self.top + (1 - self.plot.y_share(y)) * _HEIGHT

    def x(self, x: float) -> float:
        return self.left + self.plot.x_share(x) * (WIDTH - self.left - 6)


def chart_drawing(chart: Chart, display: Display, kind: Type) -> Drawing:
    """The chart as a drawing, with title and legend; words where there is nothing to draw."""
    sheet = Sheet(kind)
    y = heading(sheet, chart.title, 0)
    plot = ready_to_draw(chart, display)
    if plot is None:
        sheet.words((0, y + NORMAL), NOTHING_TO_DRAW, NORMAL)
        return sheet.end(y + NORMAL + 6)
    y = legend(sheet, list(_entries(plot.chart)), y) + 6
    sheet.words((0, y + NORMAL), kind.line(plot.y_words, NORMAL, WIDTH), NORMAL)
    frame = _Frame(plot, _margin(plot, kind), y + NORMAL + 8)
    _draw(sheet, frame)
    return sheet.end(_strips(sheet, frame, _x_axis(sheet, frame)) + 4)


def _margin(plot: Plot, kind: Type) -> float:
    """Room at the left for the labels of the y axis and the titles of the strips."""
    labels = [label for _, label in plot.y_ticks(_Y_TICKS)]
    labels += [kind.line(row.title, NORMAL, _MOST_MARGIN) for row in plot.chart.marks]
    return max((width(label, NORMAL) for label in labels), default=0) + 8


def _entries(chart: Chart) -> Iterator[Entry]:
    curves = [line for line in chart.lines if not line.points]
    points = [line for line in chart.lines if line.points]
    yield from ((line.title, _curve_sample(n)) for n, line in enumerate(curves))
    yield from ((line.title, _point_sample(n)) for n, line in enumerate(points))
    yield from ((band.title, _band_sample(n)) for n, band in enumerate(chart.bands))
    yield from ((row.title, sign_sample(row.sign)) for row in chart.marks)


def _curve_sample(number: int) -> Sample:
    dash = DASHES[number % len(DASHES)]
    return lambda sheet, x, y: sheet.curve([(x, y), (x + SAMPLE, y)], dash)


def _point_sample(number: int) -> Sample:
    return lambda sheet, x, y: sheet.point((x + SAMPLE / 2, y), number)


def _band_sample(number: int) -> Sample:
    return lambda sheet, x, y: sheet.shade(
        [(x, y - 4), (x + SAMPLE, y - 4)], [(x, y + 4), (x + SAMPLE, y + 4)], number
    )


def _draw(sheet: Sheet, frame: _Frame) -> None:
    chart = frame.plot.chart
    for number, band in widest_first(chart.bands):
        _band(sheet, frame, band, number)
    _y_axis(sheet, frame)
    for number, line in enumerate(line for line in chart.lines if not line.points):
        for run in runs(line):
            sheet.curve([frame.at(x, y) for x, y in run], DASHES[number % len(DASHES)])
    for number, line in enumerate(line for line in chart.lines if line.points):
        for run in runs(line):
            for x, y in run:
                sheet.point(frame.at(x, y), number)


def _band(sheet: Sheet, frame: _Frame, band: Band, number: int) -> None:
    if not band.x:
        return
    upper = [frame.at(x, y) for x, y in zip(band.x, band.high, strict=True)]
    lower = [frame.at(x, y) for x, y in zip(band.x, band.low, strict=True)]
    sheet.shade(upper, lower, number)


def _y_axis(sheet: Sheet, frame: _Frame) -> None:
    for value, label in frame.plot.y_ticks(_Y_TICKS):
        _, y = frame.at(frame.plot.x_low, value)
        sheet.line((frame.left, y), (WIDTH - 6, y), 0.4, GRID)
        sheet.line((frame.left - _TICK, y), (frame.left, y))
        sheet.words((frame.left - 5 - width(label, NORMAL), y + 3), label, NORMAL)
    sheet.line((frame.left, frame.top), (frame.left, frame.bottom))


def _x_axis(sheet: Sheet, frame: _Frame) -> float:
    """Base line, ticks and labels, and what x is unless it is dates; the y below them."""
    sheet.line((frame.left, frame.bottom), (WIDTH - 6, frame.bottom))
    y = frame.bottom + _TICK + NORMAL + 2
    for value, label in frame.plot.x_ticks((WIDTH - frame.left) / LETTER):
        x = frame.x(value)
        sheet.line((x, frame.bottom), (x, frame.bottom + _TICK))
        half = width(label, NORMAL) / 2
        sheet.centred((min(max(x, half), WIDTH - half), y), label, NORMAL)
    if frame.plot.chart.dates:
        return y + 4
    title = sheet.type.line(frame.plot.chart.x_title, NORMAL, WIDTH - frame.left)
    sheet.words((WIDTH - 6 - width(title, NORMAL), y + NORMAL + 4), title, NORMAL)
    return y + NORMAL + 8


def _strips(sheet: Sheet, frame: _Frame, y: float) -> float:
    for row in frame.plot.chart.marks:
        base = y + _STRIP - 3
        title = sheet.type.line(row.title, NORMAL, _MOST_MARGIN)
        sheet.words((frame.left - 8 - width(title, NORMAL), base), title, NORMAL)
        sign = sheet.type.line(row.sign, SMALL, WIDTH, BOLD)
        for x in row.x:
            sheet.centred((frame.x(x), base), sign, SMALL, BOLD)
        y += _STRIP
    return y
