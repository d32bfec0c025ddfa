"""A timeline in the terminal: bars of days with signs, and words for every sign."""

from __future__ import annotations

from datetime import date, timedelta
from zoneinfo import ZoneInfo

from hypothesis import given, settings
from hypothesis import strategies as st
from msgspec.structs import replace

from warmside.core.answers.parts import Moment, Span, Timeline, TimelineRow
from warmside.core.values.quantities import Display
from warmside.faces.look import Look
from warmside.faces.terminal.terminal_timeline import render_timeline
from warmside.faces.terminal.widths import text_width

LOOK = Look(80, Display.METRIC, ZoneInfo("UTC"))


def march(day: int) -> date:
    return date(2025, 3, 1) + timedelta(day - 1)


TIMELINE = Timeline(
    "care",
    "Care",
    march(1),
    march(30),
    (
        TimelineRow(
            "Ember",
            (Span(march(3), march(12), "opaque"), Span(march(20), march(40), "quarantine", False)),
            (Moment(march(1), "o", "meal"), Moment(march(15), "x", "meal refused")),
        ),
        TimelineRow("Sedge", (Span(march(5), march(6), "clear"),)),
    ),
    today=march(10),
)


def test_spans_carry_their_label_or_say_it_below() -> None:
    assert render_timeline(TIMELINE, LOOK) == [
        "Care",
        "      |2025-03-01   |2025-03-08   |2025-03-15   |2025-03-22",
        "Ember o···[ opaque ==========]····x·········[ quarantine ---------",
        "Sedge ········[==]················································",
        "      clear 2025-03-05 to 2025-03-06",
        "                        ^",
        "o meal   x meal refused   ^ today 2025-03-10",
    ]


def test_a_label_keeps_clear_of_marks() -> None:
    row = TimelineRow("a", (Span(march(1), march(5), "clear"),), (Moment(march(3), "x", "meal"),))
    lines = render_timeline(replace(TIMELINE, rows=(row,), today=None), LOOK)
    assert lines[2].startswith("a [===x====]·")
    assert lines[3] == "  clear 2025-03-01 to 2025-03-05"


def test_two_signs_in_one_cell_are_told() -> None:
    row = TimelineRow("a", (), (Moment(march(1), "o", "meal"), Moment(march(1), "s", "shed")))
    lines = render_timeline(replace(TIMELINE, rows=(row,), today=None), LOOK)
    assert lines[2].startswith("a *")
    assert lines[-1] == "o meal   s shed   * several"


def test_a_long_time_puts_several_days_in_a_cell_and_says_so() -> None:
    lines = render_timeline(replace(TIMELINE, end=march(365)), replace(LOOK, width=40))
    assert lines[-1].endswith("one sign for 11 days")
    assert all(text_width(line) <= 40 for line in lines)


def test_no_rows_say_so() -> None:
    assert render_timeline(replace(TIMELINE, rows=()), LOOK)[1] == "nothing on record to draw"


TEXT = st.text(st.characters(codec=None), max_size=30)
DAY = st.dates(date(2020, 1, 1), date(2030, 1, 1))


@st.composite
def timelines(draw: st.DrawFn) -> Timeline:
    """Timelines of any titles, spans and marks, some outside of the days shown."""
    spans = st.tuples(DAY, DAY, TEXT, st.booleans()).map(
        lambda s: Span(min(s[0], s[1]), max(s[0], s[1]), s[2], s[3])
    )
    moments = st.builds(Moment, DAY, TEXT, TEXT)
    row = st.builds(
        TimelineRow,
        TEXT,
        st.lists(spans, max_size=3).map(tuple),
        st.lists(moments, max_size=3).map(tuple),
    )
    rows = tuple(draw(st.lists(row, max_size=3)))
    return Timeline("t", draw(TEXT), draw(DAY), draw(DAY), rows, draw(DAY | st.none()))


@settings(deadline=None)
@given(timelines(), st.integers(20, 100))
def test_any_timeline_stays_within_the_width(timeline: Timeline, width: int) -> None:
    for line in render_timeline(timeline, replace(LOOK, width=width)):
        assert text_width(line) <= width
