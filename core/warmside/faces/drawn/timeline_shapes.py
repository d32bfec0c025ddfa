"""A timeline on paper: for each row a lane of marks above a lane of spans, under one calendar."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from datetime import date

from msgspec import Struct

from warmside.core.answers.timelines import Span, Timeline, TimelineRow
from warmside.faces.drawn.legend import Entry, heading, legend, sign_sample
from warmside.faces.drawn.sketch import WHITE, Sketch
from warmside.faces.drawn.strokes import GRID, LETTER, MIDDLE, NORMAL, SMALL, Sheet
from warmside.faces.drawn.ticks import date_ticks
from warmside.faces.paper.page_fonts import BOLD, Type, width

_MARKS, _SPANS, _WORDS, _GAP = 10.0, 13.0, 9.0, 5.0
_MOST_MARGIN = 110.0
NOTHING_TO_DRAW = "nothing on record to draw"
_WEAK_DASH = (1.5, 1.5)


class _Days(Struct, frozen=True):
    """The calendar's place on the sheet; a day has a breadth."""

    start: date
    end: date
    left: float
    right: float

    @property
    def breadth(self) -> float:
        return (self.right - self.left) / ((self.end - self.start).days + 1)

    def x(self, day: date) -> float:
        """The left edge of a day."""
        return self.left + (day - self.start).days * self.breadth

    def middle(self, day: date) -> float:
        return self.x(day) + self.breadth / 2

    def holds(self, day: date) -> bool:
        return self.start <= day <= self.end


def timeline_sketch(timeline: Timeline, kind: Type, wide: float) -> Sketch:
    """The timeline with title and legend; words where it has no row or day."""
    back, front = Sheet(kind, wide), Sheet(kind, wide)
    y = heading(back, timeline.title, 0)
    if not timeline.rows or timeline.end < timeline.start:
        back.words((0, y + NORMAL), NOTHING_TO_DRAW, NORMAL)
        return back.end(timeline.title, y + NORMAL + 6)
    days = _Days(timeline.start, timeline.end, _margin(timeline.rows, kind), wide)
    top = legend(back, _entries(timeline, days), y) + NORMAL + 8
    y = top + 2
    for row in timeline.rows:
        y = _row(front, row, days, y)
    _calendar(back, days, top, y)
    if timeline.today and days.holds(timeline.today):
        _today(back, timeline.today, days, top, y)
    back.traces += front.traces
    return back.end(timeline.title, y + NORMAL + 6)


def _margin(rows: Iterable[TimelineRow], kind: Type) -> float:
    titles = [kind.line(row.title, NORMAL, _MOST_MARGIN) for row in rows]
    return max(width(title, NORMAL) for title in titles) + 8


def _entries(timeline: Timeline, days: _Days) -> list[Entry]:
    moments = [m for row in timeline.rows for m in row.moments if days.holds(m.day)]
    signs = dict.fromkeys((m.sign, m.label) for m in moments)
    return [(label, sign_sample(sign)) for sign, label in signs]


def _calendar(sheet: Sheet, days: _Days, top: float, bottom: float) -> None:
    """Labelled days with a faint line down through the rows; a label without room is left out."""
    room = (days.right - days.left) / LETTER
    free = days.left
    for ordinal, label in date_ticks(days.start.toordinal(), days.end.toordinal(), room):
        x = days.x(date.fromordinal(int(ordinal)))
        sheet.line((x, top), (x, bottom), 0.4, GRID)
        start = min(x, days.right - width(label, NORMAL))
        if start >= free:
            sheet.words((start, top - 3), label, NORMAL)
            free = start + width(label, NORMAL) + LETTER
    sheet.line((days.left, top), (days.right, top))


def _today(sheet: Sheet, today: date, days: _Days, top: float, bottom: float) -> None:
    x, words = days.middle(today), f"today {today}"
    sheet.line((x, top), (x, bottom), 0.8, dash=(3, 2))
    half = width(words, NORMAL) / 2
    sheet.centred((max(half, min(x, days.right - half)), bottom + NORMAL + 1), words, NORMAL)


def _row(sheet: Sheet, row: TimelineRow, days: _Days, y: float) -> float:
    """Marks, spans, and what found no room in its span; the y below the row."""
    moments = [moment for moment in row.moments if days.holds(moment.day)]
    spans = [span for span in row.spans if span.start <= days.end and span.end >= days.start]
    for moment in moments:
        sign = sheet.type.line(moment.sign, NORMAL, _MOST_MARGIN, BOLD)
        sheet.centred((days.middle(moment.day), y + _MARKS - 1), sign, NORMAL, BOLD)
    y += _MARKS if moments else 2
    base = y + _SPANS - 4 if spans else y - 1
    title = sheet.type.line(row.title, NORMAL, _MOST_MARGIN)
    sheet.words((days.left - 8 - width(title, NORMAL), base), title, NORMAL)
    left_out = [span for span in spans if not _span(sheet, span, days, y)]
    y += _SPANS if spans else 0
    for line in _said(left_out, days, sheet.type):
        y += _WORDS
        sheet.words((days.left, y), line, SMALL)
    return y + _GAP


def _span(sheet: Sheet, span: Span, days: _Days, y: float) -> bool:
    """The box of a span; whether its label, if it has one, had room in it."""
    start = days.x(max(span.start, days.start))
    breadth = days.x(min(span.end, days.end)) + days.breadth - start
    fill, dash = (MIDDLE, ()) if span.strong else (WHITE, _WEAK_DASH)
    sheet.box((start, y), (breadth, _SPANS), fill, dash)
    label = sheet.type.set(span.label).replace("\n", " ")
    if not label:
        return True
    if width(label, NORMAL) + 4 > breadth:
        return False
    sheet.centred((start + breadth / 2, y + _SPANS - 4), label, NORMAL)
    return True


def _said(spans: Sequence[Span], days: _Days, kind: Type) -> list[str]:
    words = "; ".join(
        f"{s.label} {s.start}" + (f" to {s.end}" if s.end > s.start else "") for s in spans
    )
    return kind.lines(words, SMALL, days.right - days.left) if spans else []
