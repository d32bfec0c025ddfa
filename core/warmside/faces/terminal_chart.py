"""A chart in a terminal: braille curves over lightly shaded bands, marks in strips below."""

from __future__ import annotations

from bisect import bisect_left
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from itertools import groupby

from warmside.core.answers.parts import Band, Chart, MarkRow
from warmside.faces import braille
from warmside.faces.ink import Ink, paint
from warmside.faces.look import Look
from warmside.faces.plot import Plot, ready_to_draw, runs, widest_first
from warmside.faces.visible import visible, visible_line
from warmside.faces.widths import clip, hanging, pad, text_width, wrap

NOTHING_TO_DRAW = "nothing on record to draw"
_ROWS, _SMALL_ROWS, _SMALL_WIDTH = 14, 10, 60
_MARGIN = 12
_BANDS = "░·:"
_POINTS = "ox+#"
_PATTERNS = (braille.SOLID, braille.DASHED, braille.DOTTED)
_SAMPLES = ("⠤⠤⠤", "⠤⠤ ⠤⠤", "⠄⠄⠄")


@dataclass(frozen=True, slots=True)
class _Frame:
    """The plot on a grid of cells, with the room for labels at its left."""

    plot: Plot
    margin: int
    columns: int
    rows: int

    def dot(self, x: float, y: float) -> braille.Dot:
        return self.across(x), self.down(y)

    def across(self, x: float) -> int:
        return round(self.plot.x_share(x) * (2 * self.columns - 1))

    def down(self, y: float) -> int:
        return round((1 - self.plot.y_share(y)) * (4 * self.rows - 1))


def render_chart(chart: Chart, look: Look) -> list[str]:
    """The chart as lines within `look.width`; a sentence where there is nothing to draw."""
    title = [paint(t, Ink.BOLD, look.colour) for t in wrap(visible(chart.title), look.width)]
    plot = ready_to_draw(chart, look.display)
    if plot is None:
        return title + wrap(NOTHING_TO_DRAW, look.width)
    frame = _frame(plot, look.width)
    lines = [clip(visible_line(plot.y_words), look.width)]
    lines += _body(frame, look)
    lines += _x_axis(frame)
    lines += [_strip(row, frame) for row in plot.chart.marks]
    return title + lines + _legend(plot.chart, look.width)


def sign_of(text: str) -> str:
    """The one-column sign that stands for a mark: the first of the text, else an asterisk."""
    sign = visible_line(text)[:1]
    return sign if sign.strip() and text_width(sign) == 1 else "*"


def legend_lines(items: Iterable[str], width: int) -> list[str]:
    """Legend entries side by side, an entry broken only where it is longer than a line."""
    lines: list[str] = []
    for item in items:
        if lines and text_width(lines[-1]) + 3 + text_width(item) <= width:
            lines[-1] += "   " + item
        else:
            lines += hanging(item, width)
    return lines


def _frame(plot: Plot, width: int) -> _Frame:
    rows = _ROWS if width >= _SMALL_WIDTH else _SMALL_ROWS
    labels = [label for _, label in plot.y_ticks(rows // 2)]
    titles = [visible_line(row.title) for row in plot.chart.marks]
    most = min(_MARGIN, width // 3)
    margin = min(most, max(map(text_width, (*labels, *titles)), default=0))
    return _Frame(plot, margin, width - margin - 2, rows)


def _body(frame: _Frame, look: Look) -> list[str]:
    labels = {frame.down(y) // 4: label for y, label in frame.plot.y_ticks(frame.rows // 2)}
    lines = []
    for number, row in enumerate(_grid(frame)):
        label = pad(clip(labels.get(number, ""), frame.margin), frame.margin, right=True)
        edge = "┤" if number in labels else "│"
        lines.append(f"{label} {edge}{_inked(row, look.colour)}".rstrip())
    return lines


def _grid(frame: _Frame) -> list[list[str]]:
    """Bands first, curves over them, points on top."""
    grid = [[" "] * frame.columns for _ in range(frame.rows)]
    chart = frame.plot.chart
    for number, band in widest_first(chart.bands):
        _shade(grid, frame, band, _BANDS[number % len(_BANDS)])
    for (column, row), sign in braille.cells(_dots(frame)).items():
        grid[row][column] = sign
    for number, line in enumerate(line for line in chart.lines if line.points):
        for x, y in (point for run in runs(line) for point in run):
            grid[frame.down(y) // 4][frame.across(x) // 2] = _POINTS[number % len(_POINTS)]
    return grid


def _dots(frame: _Frame) -> list[braille.Dot]:
    curves = [line for line in frame.plot.chart.lines if not line.points]
    return [
        dot
        for number, line in enumerate(curves)
        for run in runs(line)
        for dot in braille.stroke(
            (frame.dot(x, y) for x, y in run), _PATTERNS[number % len(_PATTERNS)]
        )
    ]


def _shade(grid: list[list[str]], frame: _Frame, band: Band, sign: str) -> None:
    for column in range(frame.columns):
        share = (2 * column + 0.5) / (2 * frame.columns - 1)
        x = frame.plot.x_low + share * (frame.plot.x_high - frame.plot.x_low)
        low, high = _at(band.x, band.low, x), _at(band.x, band.high, x)
        if low is None or high is None:
            continue
        ends = sorted((frame.down(low) // 4, frame.down(high) // 4))
        for row in range(ends[0], ends[1] + 1):
            grid[row][column] = sign


def _at(xs: Sequence[float], ys: Sequence[float], x: float) -> float | None:
    """The curve's height at x, straight between its points; None outside of them."""
    if not xs or not xs[0] <= x <= xs[-1]:
        return None
    after = bisect_left(xs, x)
    if xs[after] == x:
        return ys[after]
    share = (x - xs[after - 1]) / (xs[after] - xs[after - 1])
    return ys[after - 1] + share * (ys[after] - ys[after - 1])


def _inked(row: Sequence[str], colour: bool) -> str:
    """A row with its points bold and its bands dim."""
    if not colour:
        return "".join(row)
    inks = dict.fromkeys(_POINTS, Ink.BOLD) | dict.fromkeys(_BANDS, Ink.DIM)
    stretches = groupby(row, lambda sign: inks.get(sign, Ink.NONE))
    return "".join(paint("".join(signs), ink, True) for ink, signs in stretches)


def _x_axis(frame: _Frame) -> list[str]:
    """The base line with its ticks, the labels under them, and what x is unless it is dates."""
    ticks = frame.plot.x_ticks(frame.columns)
    base, labels = ["─"] * frame.columns, [" "] * frame.columns
    free = 0
    for x, label in ticks:
        column = frame.across(x) // 2
        base[column] = "┬"
        start = max(0, min(column - len(label) // 2, frame.columns - len(label)))
        if start >= free:
            labels[start : start + len(label)] = label
            free = start + len(label) + 1
    blank = " " * (frame.margin + 1)
    lines = [f"{blank}└{''.join(base)}", f"{blank} {''.join(labels)}".rstrip()]
    if not frame.plot.chart.dates:
        title = clip(visible_line(frame.plot.chart.x_title), frame.columns)
        lines.append(f"{blank} {pad(title, frame.columns, right=True)}")
    return lines


def _strip(row: MarkRow, frame: _Frame) -> str:
    cells = [" "] * frame.columns
    for x in row.x:
        cells[frame.across(x) // 2] = sign_of(row.sign)
    title = clip(visible_line(row.title), frame.margin)
    return f"{pad(title, frame.margin, right=True)}  {''.join(cells)}".rstrip()


def _legend(chart: Chart, width: int) -> list[str]:
    curves = [line for line in chart.lines if not line.points]
    points = [line for line in chart.lines if line.points]
    items = [
        *(f"{_SAMPLES[n % 3]} {visible_line(line.title)}" for n, line in enumerate(curves)),
        *(f"{_POINTS[n % 4]} {visible_line(line.title)}" for n, line in enumerate(points)),
        *(f"{_BANDS[n % 3]} {visible_line(band.title)}" for n, band in enumerate(chart.bands)),
        *(f"{sign_of(m.sign)} {visible_line(m.title)} ({len(m.x)})" for m in chart.marks),
    ]
    return legend_lines(items, width)
