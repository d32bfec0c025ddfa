"""A timeline in a terminal: a line a row, a sign for each day or few days, a legend below."""

from __future__ import annotations

from collections.abc import Collection, Iterable
from datetime import date

from msgspec import Struct

from warmside.core.answers.parts import Moment, Span, Timeline, TimelineRow
from warmside.faces.drawn.ticks import date_ticks
from warmside.faces.look import Look
from warmside.faces.terminal.ink import Ink, paint
from warmside.faces.terminal.terminal_chart import NOTHING_TO_DRAW, legend_lines, sign_of
from warmside.faces.terminal.visible import visible, visible_line
from warmside.faces.terminal.widths import hanging, text_width, wrap

_EMPTY, _SEVERAL = "·", "*"
_STRONG, _WEAK = "=", "-"
_MOST_ACROSS = 3


class _Days(Struct, frozen=True):
    """The days of the bars after `margin` columns of titles.

    Either a day takes `across` cells, or a cell stands for `each` days; the other is 1.
    """

    start: date
    end: date
    each: int
    across: int
    margin: int

    @property
    def cells(self) -> int:
        return self.last_cell(self.end) + 1

    def cell(self, day: date) -> int:
        return (day - self.start).days * self.across // self.each

    def last_cell(self, day: date) -> int:
        return self.cell(day) + self.across - 1

    def holds(self, day: date) -> bool:
        return self.start <= day <= self.end


def render_timeline(timeline: Timeline, look: Look) -> list[str]:
    """The timeline as lines within `look.width`."""
    title = [paint(t, Ink.BOLD, look.colour) for t in wrap(visible(timeline.title), look.width)]
    if not timeline.rows or timeline.end < timeline.start:
        return title + wrap(NOTHING_TO_DRAW, look.width)
    days = _days(timeline, look.width)
    lines = [_axis(days)]
    for row in timeline.rows:
        lines += _row(row, days, look)
    if timeline.today and days.holds(timeline.today):
        lines.append(" " * (days.margin + days.cell(timeline.today)) + "^")
    return title + lines + _legend(timeline, days, look.width)


def _days(timeline: Timeline, width: int) -> _Days:
    titles = [text_width(visible_line(row.title)) for row in timeline.rows]
    margin = max((wide for wide in titles if wide <= width // 3), default=0)
    margin += 1 if margin else 0
    count = (timeline.end - timeline.start).days + 1
    room = width - margin
    across = max(1, min(_MOST_ACROSS, room // count))
    return _Days(timeline.start, timeline.end, -(-count // room), across, margin)


def _axis(days: _Days) -> str:
    """Dates at their cells, after a stroke, or before it at the right end."""
    cells, free = [" "] * days.cells, 0
    for x, label in date_ticks(days.start.toordinal(), days.end.toordinal(), days.cells):
        cell = days.cell(date.fromordinal(int(x)))
        start, text = cell, f"|{label}"
        if cell + len(text) > days.cells:
            start, text = cell - len(label), f"{label}|"
        if start >= free and start + len(text) <= days.cells:
            cells[start : start + len(text)] = text
            free = start + len(text) + 1
    return (" " * days.margin + "".join(cells)).rstrip()


def _row(row: TimelineRow, days: _Days, look: Look) -> list[str]:
    """The bar, after its title or below it, and the spans whose label found no room."""
    title = visible_line(row.title)
    above = wrap(title, look.width) if text_width(title) >= max(1, days.margin) else []
    label = "" if above else title
    bar, left_out = _bar(row, days)
    lines = [*above, label + " " * (days.margin - text_width(label)) + bar]
    if left_out:
        lines += _spans_said(left_out, days, look)
    return lines


def _bar(row: TimelineRow, days: _Days) -> tuple[str, list[Span]]:
    cells = [_EMPTY] * days.cells
    shown = [span for span in row.spans if span.start <= days.end and span.end >= days.start]
    for span in shown:
        _fill(cells, span, days)
    marks = _marks((m for m in row.moments if days.holds(m.day)), days)
    left_out = [span for span in shown if not _written(cells, span, days, marks)]
    for cell, sign in marks.items():
        cells[cell] = sign
    return "".join(cells), left_out


def _ends(span: Span, days: _Days) -> tuple[int, int]:
    return days.cell(max(span.start, days.start)), days.last_cell(min(span.end, days.end))


def _fill(cells: list[str], span: Span, days: _Days) -> None:
    """`[====]`, open at an end that lies outside of the timeline."""
    first, last = _ends(span, days)
    cells[first : last + 1] = (_STRONG if span.strong else _WEAK) * (last + 1 - first)
    if first < last:
        if days.holds(span.start):
            cells[first] = "["
        if days.holds(span.end):
            cells[last] = "]"


def _written(cells: list[str], span: Span, days: _Days, taken: Collection[int]) -> bool:
    """Whether the label found a place within the span that no mark takes."""
    label = visible_line(span.label)
    first, last = _ends(span, days)
    if not label or any(text_width(char) != 1 for char in label):
        return not label
    for text in (f" {label} ", label):
        for start in range(first + 1, last - len(text) + 1):
            around = range(start - 1, start + len(text) + 1)
            if not any(cell in taken for cell in around):
                cells[start : start + len(text)] = text
                return True
    return False


def _marks(moments: Iterable[Moment], days: _Days) -> dict[int, str]:
    """One sign a cell; different signs in one cell become the sign for several."""
    marks: dict[int, str] = {}
    for moment in moments:
        cell, sign = days.cell(moment.day), sign_of(moment.sign)
        marks[cell] = sign if marks.get(cell, sign) == sign else _SEVERAL
    return marks


def _spans_said(spans: Iterable[Span], days: _Days, look: Look) -> list[str]:
    said = "; ".join(
        f"{visible_line(s.label)} {s.start}" + (f" to {s.end}" if s.end > s.start else "")
        for s in spans
    )
    lines = hanging(said, look.width - days.margin)
    return [" " * days.margin + paint(line, Ink.DIM, look.colour) for line in lines]


def _legend(timeline: Timeline, days: _Days, width: int) -> list[str]:
    moments = [m for row in timeline.rows for m in row.moments if days.holds(m.day)]
    items = [f"{sign_of(m.sign)} {visible_line(m.label)}" for m in moments]
    signs = {sign for row in timeline.rows for sign in _signs_shown(row, days)}
    if _SEVERAL in signs and _SEVERAL not in {sign_of(m.sign) for m in moments}:
        items.append(f"{_SEVERAL} several")
    if timeline.today and days.holds(timeline.today):
        items.append(f"^ today {timeline.today}")
    if days.each > 1:
        items.append(f"one sign for {days.each} days")
    return legend_lines(dict.fromkeys(items), width)


def _signs_shown(row: TimelineRow, days: _Days) -> Iterable[str]:
    return _marks((m for m in row.moments if days.holds(m.day)), days).values()
