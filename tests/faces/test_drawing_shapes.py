"""A drawing of shapes: its size, its fills, its labels, the same on paper and on a screen."""

from __future__ import annotations

import math
from itertools import pairwise
from pathlib import Path as FilePath
from typing import get_args

import pytest
from hypothesis import given
from hypothesis import strategies as st
from msgspec.structs import replace

from faces.specimen import DRAWING, LOOK
from warmside.core.answers import drawings, parts
from warmside.core.answers.drawings import Box, Disc, Drawing, Fill, Label, Path, Shape, Stroke
from warmside.faces.drawn.fills import hatching, left_half
from warmside.faces.drawn.shapes import sketch_of
from warmside.faces.drawn.sketch import Point, Poly, Round, Sketch, Text
from warmside.faces.drawn.spreading import spread
from warmside.faces.paper.page_fonts import Type, width

FOLDER = FilePath(__file__).parents[2]


def sketched(*shapes: Shape, wide: float = 480.0, size: Point = (100, 50)) -> Sketch:
    return sketch_of(Drawing("d", "", *size, "mm", shapes, ()), LOOK, Type(), wide)


def area(outline: tuple[Point, ...]) -> float:
    """The shoelace formula (Gauss)."""
    closed = pairwise([*outline, outline[0]])
    return abs(sum(x0 * y1 - x1 * y0 for (x0, y0), (x1, y1) in closed)) / 2


def test_millimetres_are_true_on_paper() -> None:
    """An inch is 25.4 mm (1959) and 72 points of a page (ISO 32000)."""
    (line,) = sketched(Stroke((0, 0), (25.4, 12.7))).traces
    assert isinstance(line, Poly)
    assert line.points[1] == pytest.approx((72, 36))


def test_a_wide_drawing_is_made_smaller_a_small_one_stays() -> None:
    assert sketched(size=(1000, 500), wide=480).height == pytest.approx(240)
    assert sketched(size=(100, 50), wide=480).height == pytest.approx(50 * 72 / 25.4)


def test_one_that_is_made_smaller_as_a_whole_keeps_its_size_until_it_is_put_on_a_page() -> None:
    wide = Drawing("d", "", 400, 50, "mm", (Stroke((0, 0), (400, 0)),), (), whole=True)
    assert sketch_of(wide, LOOK, Type(), 480).width == pytest.approx(400 * 72 / 25.4)


def test_a_label_begins_is_centred_or_ends_at_its_place() -> None:
    breadth = width("Ember", 8.0)
    for anchor, back in (("start", 0.0), ("middle", breadth / 2), ("end", breadth)):
        (text,) = sketched(Label((50.8, 25.4), "Ember", anchor=anchor)).traces  # type: ignore[arg-type]
        assert isinstance(text, Text)
        assert text.place == pytest.approx((144 - back, 72))


def test_each_fill_looks_different_without_colour() -> None:
    seen = set()
    for fill in Fill:
        traces = sketched(Box((0, 0), 20, 20, fill)).traces
        black = [t for t in traces if isinstance(t, Poly) and t.fill == 0.0]
        seen.add((tuple(round(area(b.points)) for b in black), len(traces) > 10))
    whole = round((20 * 72 / 25.4) ** 2)
    assert seen == {((), False), ((whole // 2,), False), ((whole,), False), ((), True)}


def test_a_full_disc_is_a_true_circle() -> None:
    traces = sketched(Disc((25.4, 25.4), 12.7, Fill.FULL)).traces
    assert all(isinstance(t, Round) and t.radius == pytest.approx(36) for t in traces)


def test_an_open_path_is_not_filled() -> None:
    traces = sketched(Path(((0, 0), (10, 0), (10, 10)), fill=Fill.FULL)).traces
    assert [t.fill for t in traces if isinstance(t, Poly)] == [None]


@pytest.mark.parametrize("wrong", [math.nan, math.inf])
def test_what_cannot_be_drawn_is_refused_at_once(wrong: float) -> None:
    with pytest.raises(ValueError, match="finite"):
        Stroke((0, 0), (wrong, 1))
    with pytest.raises(ValueError, match="finite"):
        Label((0, wrong), "x")
    with pytest.raises(ValueError, match="no size"):
        replace(DRAWING, width=0)


def test_the_documented_example_draws_and_all_parts_are_documented() -> None:
    text = (FOLDER / "DEVELOPERS.md").read_text(encoding="utf-8")
    code = next(b for b in text.split("```python\n") if b.startswith("Drawing(")).split("```")[0]
    drawing = eval(code, vars(drawings))  # the documentation's own code
    assert len(sketch_of(drawing, LOOK, Type()).traces) > 5
    for part in (*get_args(parts.Part), *get_args(Shape)):
        assert f"`{part.__name__}`" in text


SIDE = st.integers(1, 60).map(float)


@given(SIDE, SIDE)
def test_hatching_stays_within_and_covers_evenly(wide: float, high: float) -> None:
    """Strokes `apart` from each other have together the length of the area over that distance."""
    outline = ((0.0, 0.0), (wide, 0.0), (wide, high), (0.0, high))
    strokes = hatching(outline, 1.0)
    length = sum(math.dist(*stroke) for stroke in strokes)
    assert length == pytest.approx(wide * high, abs=math.hypot(wide, high) + 1)
    for x, y in (end for stroke in strokes for end in stroke):
        assert -1e-9 <= x <= wide + 1e-9
        assert -1e-9 <= y <= high + 1e-9


@given(st.lists(st.tuples(SIDE, SIDE), min_size=1, max_size=7))
def test_the_left_half_and_its_mirror_make_the_whole_of_a_triangle(points: list[Point]) -> None:
    outline = tuple(points[:3])
    mirrored = tuple((-x, y) for x, y in outline)
    halves = left_half(outline), left_half(mirrored)
    total = sum(area(half) for half in halves if half)
    assert total == pytest.approx(area(outline), abs=1e-6)


@given(st.lists(st.floats(-50, 150), min_size=1, max_size=12), st.floats(0.1, 9))
def test_labels_are_spread_in_their_order_within_the_ends(
    wanted: list[float], apart: float
) -> None:
    places = spread(wanted, apart, 0, 100)
    if (len(wanted) - 1) * apart > 100:
        assert places is None
        return
    assert places is not None
    order = sorted(range(len(wanted)), key=lambda n: (wanted[n], n))
    for one, other in pairwise(order):
        assert places[other] - places[one] >= apart - 1e-9
    assert all(-1e-9 <= place <= 100 + 1e-9 for place in places)


def test_a_label_with_room_stays_where_it_belongs() -> None:
    assert spread([80.0, 10.0, 40.0], 9, 0, 100) == [80, 10, 40]
    assert spread([50.0, 50.0], 10, 0, 100) == [45, 55]
    assert spread([0.0, 1.0], 10, 0, 100) == [0, 10]
