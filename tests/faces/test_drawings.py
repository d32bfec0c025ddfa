"""Drawings on paper and as SVG: all words there, nothing outside of the sheet, no overlap."""

from __future__ import annotations

import itertools
from collections.abc import Iterator
from dataclasses import replace
from datetime import date, timedelta
from xml.etree import ElementTree
from zoneinfo import ZoneInfo

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from reportlab.graphics.shapes import Drawing, Group, PolyLine, String

from warmside.core.answers.parts import (
    Answer,
    Band,
    Chart,
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
from warmside.faces.look import Look
from warmside.faces.page_fonts import Type, width
from warmside.faces.shapes import drawing_of
from warmside.faces.strokes import WIDTH
from warmside.faces.svg import render_svg

LOOK = Look(80, Display.METRIC, ZoneInfo("UTC"))
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


def strings(drawing: Drawing | Group) -> Iterator[String]:
    for shape in drawing.contents:
        if isinstance(shape, Group):
            yield from strings(shape)
        elif isinstance(shape, String):
            yield shape


def texts(part: Chart | Timeline) -> list[str]:
    return [shape.text for shape in strings(drawing_of(part, Display.METRIC, Type()))]


def boxes(part: Chart | Timeline) -> list[tuple[float, float, float, float]]:
    """Left, right, bottom and top of the small letters of every string."""
    found = []
    for shape in strings(drawing_of(part, Display.METRIC, Type())):
        right = shape.x + width(shape.text, shape.fontSize, shape.fontName)
        found.append((shape.x, right, shape.y, shape.y + 0.5 * shape.fontSize))
    return found


@pytest.mark.parametrize("part", [CHART, TIMELINE, replace(CHART, dates=False)])
def test_words_neither_overlap_nor_leave_the_sheet(part: Chart | Timeline) -> None:
    found = boxes(part)
    for left, right, bottom, top in found:
        assert left >= -0.01
        assert right <= WIDTH + 3
        assert top <= 0
        assert bottom >= -drawing_of(part, Display.METRIC, Type()).height
    for one, other in itertools.combinations(found, 2):
        apart = one[1] <= other[0] or other[1] <= one[0]
        assert apart or one[3] <= other[2] or other[3] <= one[2]


def test_a_chart_says_titles_units_dates_and_legend() -> None:
    found = texts(CHART)
    for words in ("mass (g)", "expected", "weighings", "range", "meals", "2025-03-15", "110"):
        assert words in found
    assert "mass (oz)" in [s.text for s in strings(drawing_of(CHART, Display.IMPERIAL, Type()))]


def test_curves_differ_in_their_dashes() -> None:
    drawing = drawing_of(CHART, Display.METRIC, Type())
    curves = [s for s in drawing.contents[0].contents if isinstance(s, PolyLine)]
    dashes = {tuple(c.strokeDashArray or ()) for c in curves if c.strokeWidth == 1.2}
    assert len(dashes) == 2


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
    known = ("svg", "title", "clipPath", "rect", "g", "text", "polyline", "polygon", "circle")
    assert {element.tag for element in root.iter()} <= {space + tag for tag in known}


def test_svg_names_no_foreign_address() -> None:
    written = render_svg(Answer(parts=(CHART,)), LOOK)
    addresses = written.replace("http://www.w3.org/2000/svg", "").replace(
        "http://www.w3.org/1999/xlink", ""
    )
    assert "://" not in addresses


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
