"""A chart in a terminal: braille curves over bars and lightly shaded bands, marks in strips below.

Where there are more than three curves, a letter stands on each here and there, and at its end.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from itertools import groupby

from warmside.core.answers.charts import Chart, MarkRow
from warmside.faces.drawn.plot import Plot, ready_to_draw, runs
from warmside.faces.drawn.spreading import spread
from warmside.faces.look import Look
from warmside.faces.terminal.ink import Ink, paint
from warmside.faces.terminal.terminal_grid import (
    BANDS,
    BARS,
    LETTERS,
    MOST_UNNAMED,
    POINTS,
    Frame,
    grid,
    letter,
    sample,
)
from warmside.faces.terminal.visible import visible, visible_line
from warmside.faces.terminal.widths import clip, hanging, pad, text_width, wrap

NOTHING_TO_DRAW = "nothing on record to draw"
_ROWS, _SMALL_ROWS, _SMALL_WIDTH = 14, 10, 60
_MARGIN = 12
_ENDS_FROM, _ENDS_SHARE = 60, 0.3


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


def _frame(plot: Plot, width: int) -> Frame:
    rows = _ROWS if width >= _SMALL_WIDTH else _SMALL_ROWS
    labels = [label for _, label in plot.y_ticks(rows // 2)]
    titles = [visible_line(row.title) for row in plot.chart.marks]
    most = min(_MARGIN, width // 3)
    margin = min(most, max(map(text_width, (*labels, *titles)), default=0))
    ends = _ends_room(plot, width, rows)
    return Frame(plot, margin, width - margin - 2 - ends, rows, ends)


def _ends_room(plot: Plot, width: int, rows: int) -> int:
    """Columns at the right for the names of curves; none on a narrow terminal."""
    if not (MOST_UNNAMED < len(plot.curves) <= rows and width >= _ENDS_FROM):
        return 0
    widest = max(text_width(visible_line(line.title)) for line in plot.curves)
    return min(int(width * _ENDS_SHARE), widest + 4)


def _body(frame: Frame, look: Look) -> list[str]:
    labels = {frame.down(y) // 4: label for y, label in frame.plot.y_ticks(frame.rows // 2)}
    ends = dict(_named_ends(frame)) if frame.ends else {}
    lines = []
    for number, row in enumerate(grid(frame)):
        label = pad(clip(labels.get(number, ""), frame.margin), frame.margin, right=True)
        edge = "┤" if number in labels else "│"
        end = f" {ends[number]}" if number in ends else ""
        lines.append(f"{label} {edge}{_inked(row, look.colour)}{end}".rstrip())
    return lines


def _named_ends(frame: Frame) -> Iterator[tuple[int, str]]:
    """The row and the words of each curve's end, no two in one row."""
    drawn = [(n, line) for n, line in enumerate(frame.plot.curves) if runs(line)]
    wanted = [frame.down(runs(line)[-1][-1][1]) / 4 for _, line in drawn]
    for (number, line), row in zip(drawn, spread(wanted, 1, 0, frame.rows - 1) or (), strict=True):
        said = f"{letter(number)} {visible_line(line.title)}"
        yield int(row + 0.5), clip(said, frame.ends - 1)


def _inked(row: Sequence[str], colour: bool) -> str:
    """A row with its points bold and its bands dim."""
    if not colour:
        return "".join(row)
    inks = dict.fromkeys(POINTS + LETTERS, Ink.BOLD) | dict.fromkeys(BANDS, Ink.DIM)
    stretches = groupby(row, lambda sign: inks.get(sign, Ink.NONE))
    return "".join(paint("".join(signs), ink, True) for ink, signs in stretches)


def _x_axis(frame: Frame) -> list[str]:
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


def _strip(row: MarkRow, frame: Frame) -> str:
    cells = [" "] * frame.columns
    for x in row.x:
        cells[frame.across(x) // 2] = sign_of(row.sign)
    title = clip(visible_line(row.title), frame.margin)
    return f"{pad(title, frame.margin, right=True)}  {''.join(cells)}".rstrip()


def _legend(frame: Frame, width: int) -> list[str]:
    chart = frame.plot.chart
    items = [
        *(f"{sample(n, frame)} {visible_line(c.title)}" for n, c in enumerate(frame.plot.curves)),
        *(f"{POINTS[n % 4]} {visible_line(p.title)}" for n, p in enumerate(frame.plot.dotted)),
        *(f"{BANDS[n % 3]} {visible_line(band.title)}" for n, band in enumerate(chart.bands)),
        *(f"{BARS[n % 4]} {visible_line(bars.title)}" for n, bars in enumerate(chart.bars)),
        *(f"{sign_of(m.sign)} {visible_line(m.title)} ({len(m.x)})" for m in chart.marks),
    ]
    return legend_lines(items, width)
