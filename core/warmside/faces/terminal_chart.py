"""A chart in a terminal: braille curves over bars and lightly shaded bands, marks in strips below.

Where there are more than three curves, a letter stands on each here and there, and at its end.
"""

from __future__ import annotations

from bisect import bisect_left
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from itertools import groupby, starmap

from warmside.core.answers.charts import Band, Chart, Line, MarkRow
from warmside.faces import braille
from warmside.faces.ink import Ink, paint
from warmside.faces.look import Look
from warmside.faces.plot import Plot, ready_to_draw, runs, widest_first
from warmside.faces.spreading import spread
from warmside.faces.visible import visible, visible_line
from warmside.faces.widths import clip, hanging, pad, text_width, wrap

NOTHING_TO_DRAW = "nothing on record to draw"
_ROWS, _SMALL_ROWS, _SMALL_WIDTH = 14, 10, 60
_MARGIN = 12
_BANDS = "░·:"
_POINTS = "ox+#"
_PATTERNS = (braille.SOLID, braille.DASHED, braille.DOTTED)
_BARS = "█▒▞▪"
_LETTERS = "abcdefghijklmnpqrstuvwyz"  # without the signs of points
_MOST_UNNAMED, _LETTER_EVERY = 3, 10
_ENDS_FROM, _ENDS_SHARE = 60, 0.3
_SAMPLES = ("⠤⠤⠤", "⠤⠤ ⠤⠤", "⠄⠄⠄")


@dataclass(frozen=True, slots=True)
class _Frame:
    """The plot on a grid of cells, with the room for labels at its left."""

    plot: Plot
    margin: int
    columns: int
    rows: int
    ends: int = 0

    @property
    def lettered(self) -> bool:
        return len(self.plot.curves) > _MOST_UNNAMED

    def dot(self, x: float, y: float) -> braille.Dot:
        return self.across(x), self.down(y)

    def across(self, x: float) -> int:
        return round(self.plot.x_share(x) * (2 * self.columns - 1))

    def down(self, y: float) -> int:
        return round((1 - self.plot.y_share(y)) * (4 * self.rows - 1))


def render_chart(chart: Chart, look: Look) -> list[str]:
    """The chart as lines within `look.width`; a sentence where there is nothing to draw."""
    title = [paint(t, Ink.BOLD, look.colour) for t in wrap(visible(chart.title), look.width)]
    plot = ready_to_draw(chart, look)
    if plot is None:
        return title + wrap(NOTHING_TO_DRAW, look.width)
    frame = _frame(plot, look.width)
    lines = [clip(visible_line(plot.y_words), look.width)]
    lines += _body(frame, look)
    lines += _x_axis(frame)
    lines += [_strip(row, frame) for row in plot.chart.marks]
    return title + lines + _legend(frame, look.width)


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
    ends = _ends_room(plot, width, rows)
    return _Frame(plot, margin, width - margin - 2 - ends, rows, ends)


def _ends_room(plot: Plot, width: int, rows: int) -> int:
    """Columns at the right for the names of curves; none on a narrow terminal."""
    if not (_MOST_UNNAMED < len(plot.curves) <= rows and width >= _ENDS_FROM):
        return 0
    widest = max(text_width(visible_line(line.title)) for line in plot.curves)
    return min(int(width * _ENDS_SHARE), widest + 4)


def _body(frame: _Frame, look: Look) -> list[str]:
    labels = {frame.down(y) // 4: label for y, label in frame.plot.y_ticks(frame.rows // 2)}
    ends = dict(_named_ends(frame)) if frame.ends else {}
    lines = []
    for number, row in enumerate(_grid(frame)):
        label = pad(clip(labels.get(number, ""), frame.margin), frame.margin, right=True)
        edge = "┤" if number in labels else "│"
        end = f" {ends[number]}" if number in ends else ""
        lines.append(f"{label} {edge}{_inked(row, look.colour)}{end}".rstrip())
    return lines


def _named_ends(frame: _Frame) -> Iterator[tuple[int, str]]:
    """The row and the words of each curve's end, no two in one row."""
    drawn = [(n, line) for n, line in enumerate(frame.plot.curves) if runs(line)]
    wanted = [frame.down(runs(line)[-1][-1][1]) / 4 for _, line in drawn]
    for (number, line), row in zip(drawn, spread(wanted, 1, 0, frame.rows - 1) or (), strict=True):
        said = f"{_letter(number)} {visible_line(line.title)}"
        yield int(row + 0.5), clip(said, frame.ends - 1)


def _grid(frame: _Frame) -> list[list[str]]:
    """Bands first, then bars, curves over them, letters and points on top."""
    grid = [[" "] * frame.columns for _ in range(frame.rows)]
    for number, band in widest_first(frame.plot.chart.bands):
        _shade(grid, frame, band, _BANDS[number % len(_BANDS)])
    for number, left, right, y in frame.plot.bars():
        _bar(grid, frame, (left, right), y, _BARS[number % len(_BARS)])
    for (column, row), sign in braille.cells(_dots(frame)).items():
        grid[row][column] = sign
    for number, line in enumerate(frame.plot.curves if frame.lettered else ()):
        for column, row in _letter_cells(frame, line, number):
            grid[row][column] = _letter(number)
    for number, line in enumerate(frame.plot.dotted):
        for x, y in (point for run in runs(line) for point in run):
            grid[frame.down(y) // 4][frame.across(x) // 2] = _POINTS[number % len(_POINTS)]
    return grid


def _dots(frame: _Frame) -> list[braille.Dot]:
    return [
        dot
        for number, line in enumerate(frame.plot.curves)
        for run in runs(line)
        for dot in braille.stroke(starmap(frame.dot, run), _PATTERNS[number % len(_PATTERNS)])
    ]


def _letter(number: int) -> str:
    return _LETTERS[number % len(_LETTERS)]


def _letter_cells(frame: _Frame, line: Line, number: int) -> Iterator[tuple[int, int]]:
    """Cells of the curve to put its letter on, beside those of its neighbours in the legend."""
    dots = (
        dot for run in runs(line) for dot in braille.stroke(starmap(frame.dot, run), braille.SOLID)
    )
    first, every = 2 + 3 * number, _LETTER_EVERY + 3 * len(frame.plot.curves)
    rows = {x // 2: y // 4 for x, y in dots}
    for column, row in rows.items():
        if column % every == first % every or len(rows) == 1:
            yield column, row


def _bar(
    grid: list[list[str]], frame: _Frame, sides: tuple[float, float], y: float, sign: str
) -> None:
    """Cells from the base to y, one at least unless there is nothing to show."""
    first, last = (frame.across(x) // 2 for x in sides)
    ends = sorted((frame.down(frame.plot.base) // 4, frame.down(y) // 4))
    if y == frame.plot.base:
        return
    for row in range(ends[0], ends[1] + 1):
        for column in range(first, max(last, first + 1)):
            grid[row][column] = sign


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
    inks = dict.fromkeys(_POINTS + _LETTERS, Ink.BOLD) | dict.fromkeys(_BANDS, Ink.DIM)
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
    if frame.plot.x_words:
        title = clip(visible_line(frame.plot.x_words), frame.columns)
        lines.append(f"{blank} {pad(title, frame.columns, right=True)}")
    return lines


def _strip(row: MarkRow, frame: _Frame) -> str:
    cells = [" "] * frame.columns
    for x in row.x:
        cells[frame.across(x) // 2] = sign_of(row.sign)
    title = clip(visible_line(row.title), frame.margin)
    return f"{pad(title, frame.margin, right=True)}  {''.join(cells)}".rstrip()


def _legend(frame: _Frame, width: int) -> list[str]:
    chart = frame.plot.chart
    items = [
        *(f"{_sample(n, frame)} {visible_line(c.title)}" for n, c in enumerate(frame.plot.curves)),
        *(f"{_POINTS[n % 4]} {visible_line(p.title)}" for n, p in enumerate(frame.plot.dotted)),
        *(f"{_BANDS[n % 3]} {visible_line(band.title)}" for n, band in enumerate(chart.bands)),
        *(f"{_BARS[n % 4]} {visible_line(bars.title)}" for n, bars in enumerate(chart.bars)),
        *(f"{sign_of(m.sign)} {visible_line(m.title)} ({len(m.x)})" for m in chart.marks),
    ]
    return legend_lines(items, width)


def _sample(number: int, frame: _Frame) -> str:
    line = _SAMPLES[number % 3]
    return f"{_letter(number)}{line}" if frame.lettered else line
