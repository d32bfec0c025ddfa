"""The plot of a chart on a grid of terminal cells: bands, bars, braille curves, letters, points."""

from __future__ import annotations

from bisect import bisect_left
from collections.abc import Iterator, Sequence
from itertools import starmap

from msgspec import Struct

from warmside.core.answers.charts import Band, Line
from warmside.faces.drawn.plot import Plot, runs, widest_first
from warmside.faces.terminal import braille

BANDS, POINTS, BARS = "░·:", "ox+#", "█▒▞▪"
LETTERS = "abcdefghijklmnpqrstuvwyz"  # without the signs of points
MOST_UNNAMED = 3
"""More curves than these carry a letter each."""

_LETTER_EVERY = 10
_PATTERNS = (braille.SOLID, braille.DASHED, braille.DOTTED)
_SAMPLES = ("⠤⠤⠤", "⠤⠤ ⠤⠤", "⠄⠄⠄")


class Frame(Struct, frozen=True):
    """The plot on a grid of cells, with the room for labels at its left."""

    plot: Plot
    margin: int
    columns: int
    rows: int
    ends: int = 0

    @property
    def lettered(self) -> bool:
        """Whether curves carry their letters."""
        return len(self.plot.curves) > MOST_UNNAMED

    def dot(self, x: float, y: float) -> braille.Dot:
        """The dot of a point."""
        return self.across(x), self.down(y)

    def across(self, x: float) -> int:
        """The column of dots."""
        return round(self.plot.x_share(x) * (2 * self.columns - 1))

    def down(self, y: float) -> int:
        """The row of dots, from the top."""
        return round((1 - self.plot.y_share(y)) * (4 * self.rows - 1))


def grid(frame: Frame) -> list[list[str]]:
    """Bands first, then bars, curves over them, letters and points on top."""
    cells = [[" "] * frame.columns for _ in range(frame.rows)]
    for number, band in widest_first(frame.plot.chart.bands):
        _shade(cells, frame, band, BANDS[number % len(BANDS)])
    for number, left, right, y in frame.plot.bars():
        _bar(cells, frame, (left, right), y, BARS[number % len(BARS)])
    for (column, row), sign in braille.cells(_dots(frame)).items():
        cells[row][column] = sign
    for number, line in enumerate(frame.plot.curves if frame.lettered else ()):
        for column, row in _letter_cells(frame, line, number):
            cells[row][column] = letter(number)
    for number, line in enumerate(frame.plot.dotted):
        for x, y in (point for run in runs(line) for point in run):
            cells[frame.down(y) // 4][frame.across(x) // 2] = POINTS[number % len(POINTS)]
    return cells


def _dots(frame: Frame) -> list[braille.Dot]:
    return [
        dot
        for number, line in enumerate(frame.plot.curves)
        for run in runs(line)
        for dot in braille.stroke(starmap(frame.dot, run), _PATTERNS[number % len(_PATTERNS)])
    ]


def letter(number: int) -> str:
    """The letter of a curve."""
    return LETTERS[number % len(LETTERS)]


def _letter_cells(frame: Frame, line: Line, number: int) -> Iterator[tuple[int, int]]:
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
    cells: list[list[str]], frame: Frame, sides: tuple[float, float], y: float, sign: str
) -> None:
    """Cells from the base to y, one at least unless there is nothing to show."""
    first, last = (frame.across(x) // 2 for x in sides)
    ends = sorted((frame.down(frame.plot.base) // 4, frame.down(y) // 4))
    if y == frame.plot.base:
        return
    for row in range(ends[0], ends[1] + 1):
        for column in range(first, max(last, first + 1)):
            cells[row][column] = sign


def _shade(cells: list[list[str]], frame: Frame, band: Band, sign: str) -> None:
    for column in range(frame.columns):
        share = (2 * column + 0.5) / (2 * frame.columns - 1)
        x = frame.plot.x_low + share * (frame.plot.x_high - frame.plot.x_low)
        low, high = _at(band.x, band.low, x), _at(band.x, band.high, x)
        if low is None or high is None:
            continue
        ends = sorted((frame.down(low) // 4, frame.down(high) // 4))
        for row in range(ends[0], ends[1] + 1):
            cells[row][column] = sign


def _at(xs: Sequence[float], ys: Sequence[float], x: float) -> float | None:
    """The curve's height at x, straight between its points; None outside of them."""
    if not xs or not xs[0] <= x <= xs[-1]:
        return None
    after = bisect_left(xs, x)
    if xs[after] == x:
        return ys[after]
    share = (x - xs[after - 1]) / (xs[after] - xs[after - 1])
    return ys[after - 1] + share * (ys[after] - ys[after - 1])


def sample(number: int, frame: Frame) -> str:
    """How a curve looks, for the legend."""
    line = _SAMPLES[number % len(_SAMPLES)]
    return f"{letter(number)}{line}" if frame.lettered else line
