"""Drawings on paper and as SVG: all words there, nothing outside of the sheet, no overlap."""

from __future__ import annotations

import itertools
from datetime import date, timedelta
from xml.etree import ElementTree

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from msgspec.structs import replace

from faces.specimen import CARE, DRAWING, HOURS, LOOK, NUMBERS, zones
from warmside.core.answers.parts import (
    Answer,
    Axis,
    Band,
    Chart,
    Drawing,
    Line,
    MarkRow,
    Moment,
    Section,
    Span,
    Timeline,
    TimelineRow,
)
from warmside.core.values.errors import BadInput
from warmside.core.values.quantities import Display
from warmside.core.values.units import Unit
from warmside.faces.drawn.shapes import sketch_of
from warmside.faces.drawn.sketch import Poly, Text
from warmside.faces.drawn.strokes import WIDTH
from warmside.faces.drawn.svg import render_svg
from warmside.faces.paper.page_fonts import Type, width

START = date(2025, 3, 1)
DAYS = tuple(float(START.toordinal() + day) for day in range(0, 60, 5))
CHART = Chart(
    "growth",
    "Mass of a made-up skink <&>",
    "day",
    "mass",
    Unit.MASS,
    lines=(
        Line("expected", DAYS, tuple(100.0 + 2 * day for day in range(12))),
        Line("last year", DAYS, tuple(90.0 + 2 * day for day in range(12))),
        Line("weighings", DAYS[::4], (99.0, 112.0, 120.0), points=True),
    ),
    bands=(
        Band("range", DAYS, (95.0,) * 12, (125.0,) * 12),
        Band("inner range", DAYS, (98.0,) * 12, (120.0,) * 12),
    ),
    marks=(MarkRow("meals", DAYS[::2], "|"),),
)
TIMELINE = Timeline(
    "care",
    "Care",
    START,
    START + timedelta(60),
    (
        TimelineRow(
            "Ember",
            (Span(START, START + timedelta(20), "opaque"), Span(START, START, "a long label")),
            (Moment(START, "o", "meal"),),
        ),
        TimelineRow("Sedge", (), (Moment(START, "s", "shed"),)),
    ),
    today=START + timedelta(9),
)
FIRST_DAY = replace(TIMELINE, rows=(TimelineRow("E", (Span(START, START, "now"),)),), today=START)


def strings(part: Chart | Timeline | Drawing, wide: float = WIDTH) -> list[Text]:
    traces = sketch_of(part, LOOK, Type(), wide).traces
    return [trace for trace in traces if isinstance(trace, Text)]


def texts(part: Chart | Timeline | Drawing) -> list[str]:
    return [trace.text for trace in strings(part)]


def boxes(part: Chart | Timeline, wide: float) -> list[tuple[float, float, float, float]]:
    """Left, right, top and bottom of the small letters of every string."""
    found = []
    for trace in strings(part, wide):
        (x, y), size = trace.place, trace.size
        found.append((x, x + width(trace.text, size, trace.font), y - 0.5 * size, y))
    return found


@pytest.mark.parametrize("wide", [350.0, WIDTH])
@pytest.mark.parametrize(
    "part",
    [
        CHART,
        TIMELINE,
        FIRST_DAY,
        replace(CHART, axis=Axis.NUMBERS),
        zones(6),
        zones(8),
        HOURS,
        NUMBERS,
        CARE,
    ],
)
def test_words_neither_overlap_nor_leave_the_sheet(part: Chart | Timeline, wide: float) -> None:
    found = boxes(part, wide)
    height = sketch_of(part, LOOK, Type(), wide).height
    for left, right, top, bottom in found:
        assert left >= -0.01
        assert right <= wide + 3
        assert top >= 0
        assert bottom <= height
    for one, other in itertools.combinations(found, 2):
        apart = one[1] <= other[0] or other[1] <= one[0]
        assert apart or one[3] <= other[2] or other[3] <= one[2]


def test_a_chart_says_titles_units_dates_and_legend() -> None:
    found = texts(CHART)
    for words in ("mass (g)", "expected", "weighings", "range", "meals", "2025-03-15", "110"):
        assert words in found
    drawn = sketch_of(CHART, replace(LOOK, display=Display.IMPERIAL), Type())
    assert "mass (oz)" in [trace.text for trace in drawn.traces if isinstance(trace, Text)]


def curves(chart: Chart) -> list[Poly]:
    """The curves within the plot, which are the longest lines there are."""
    found = [t for t in sketch_of(chart, LOOK, Type()).traces if isinstance(t, Poly)]
    return [poly for poly in found if len(poly.points) > 5 and not poly.closed]


def test_up_to_twelve_curves_differ_without_colour() -> None:
    many = tuple(Line(str(n), DAYS, (float(n),) * 12) for n in range(12))
    drawn = curves(replace(CHART, lines=many))
    assert len({(c.pen.dash, c.pen.thick) for c in drawn if c.pen}) == 12
    assert {c.pen.grey for c in drawn if c.pen} == {0.0}


def test_more_than_three_curves_are_named_at_their_ends() -> None:
    found = strings(zones(6))
    ends = [t for t in found if t.place[1] > 60 and t.text in ("basking", "room")]
    assert [t.text for t in ends] == ["basking", "room"]
    last = [line[-1][1] for line in (c.points for c in curves(zones(6)))]
    assert ends[0].place[1] - 3 == pytest.approx(last[0], abs=1)
    assert [t.text for t in strings(zones(3))].count("basking") == 1


def test_bars_stand_on_zero_side_by_side_and_as_high_as_their_number() -> None:
    found = sketch_of(HOURS, LOOK, Type()).traces
    bars = [t for t in found if isinstance(t, Poly) and t.closed][2:]  # after the legend's
    spans = [(b.points[0][0], b.points[1][0], b.points[2][1] - b.points[0][1]) for b in bars]
    lamp, mat = spans[:4], spans[4:]
    assert lamp[0][1] == pytest.approx(mat[0][0])
    assert lamp[1][2] / lamp[0][2] == pytest.approx(4)
    assert mat[0][2] / lamp[0][2] == pytest.approx(4.5)
    assert len({round(b.points[2][1], 6) for b in bars}) == 1


def test_a_timeline_says_labels_within_or_below_and_today() -> None:
    found = texts(TIMELINE)
    for words in ("Ember", "opaque", "a long label 2025-03-01", "meal", "today 2025-03-10"):
        assert words in found


def test_nothing_to_draw_is_said() -> None:
    assert "nothing on record to draw" in texts(replace(CHART, lines=(), bands=(), marks=()))
    assert "nothing on record to draw" in texts(replace(TIMELINE, rows=()))


def test_svg_holds_all_drawings_of_the_answer() -> None:
    answer = Answer("Report <1>", (CHART,), (Section("Care", (TIMELINE,)),))
    root = ElementTree.fromstring(render_svg(answer, LOOK))
    space = "{http://www.w3.org/2000/svg}"
    assert root.tag == f"{space}svg"
    assert root.findtext(f"{space}title") == "Report <1>"
    found = [element.text for element in root.iter(f"{space}text")]
    assert "Mass of a made-up skink <&>" in found
    assert "opaque" in found
    known = ("svg", "title", "rect", "g", "text", "polyline", "polygon", "circle")
    assert {element.tag for element in root.iter()} <= {space + tag for tag in known}
    assert root.get("viewBox", "").split()[2:] == [
        root.get(s, "")[:-2] for s in ("width", "height")
    ]


def test_svg_needs_no_style_and_names_nothing_twice() -> None:
    """What a content security policy without 'unsafe-inline' forbids: style attributes, scripts."""
    root = ElementTree.fromstring(render_svg(Answer(parts=(CHART, DRAWING, zones())), LOOK))
    attributes = {name for element in root.iter() for name in element.attrib}
    assert not attributes & {"style", "id", "class", "href", "onload"}


def test_svg_names_no_foreign_address() -> None:
    written = render_svg(Answer(parts=(CHART,)), LOOK)
    assert "://" not in written.replace("http://www.w3.org/2000/svg", "")


def test_an_answer_without_drawing_gives_no_svg() -> None:
    with pytest.raises(BadInput, match="no drawing"):
        render_svg(Answer("words only"), LOOK)


TEXT = st.text(st.characters(codec=None), max_size=40)


@settings(deadline=None, max_examples=50)
@given(TEXT, TEXT)
def test_any_text_gives_valid_xml(title: str, label: str) -> None:
    row = TimelineRow(label, (Span(START, START, title),), (Moment(START, label, title),))
    parts = (replace(CHART, title=title, y_title=label), replace(TIMELINE, rows=(row,)))
    ElementTree.fromstring(render_svg(Answer(title, parts), LOOK).encode("utf-8"))
