"""Marks on a plan stand in their thing and apart from one another."""

from __future__ import annotations

from itertools import combinations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from warmside.plugins.habitat.described.description_file import read_description
from warmside.plugins.habitat.described.presets import PRESETS, preset_text
from warmside.plugins.habitat.telling.marks_placed import APART, placed
from warmside.plugins.habitat.telling.plan import plan

boxes = st.tuples(st.floats(0, 100), st.floats(0, 60), st.floats(8, 70), st.floats(8, 50))


@given(st.lists(boxes, min_size=1, max_size=8))
def test_each_mark_is_in_its_thing(found: list[tuple[float, float, float, float]]) -> None:
    named = {str(n): box for n, box in enumerate(found)}
    for mark, (x, y) in placed(named).items():
        left, upper, width, height = named[mark]
        assert left <= x <= left + width and upper <= y <= upper + height


def test_things_on_one_another_have_marks_apart() -> None:
    """A bowl on substrate, a hide below a panel: all with one middle."""
    nested = {"1": (40, 40, 20, 20), "2": (30, 30, 40, 40), "3": (0, 0, 100, 100)}
    found = placed(nested)
    assert found["1"] == (50, 50), "the smallest keeps its middle"
    for one, other in combinations(found.values(), 2):
        assert max(abs(a - b) for a, b in zip(one, other, strict=True)) >= APART


@pytest.mark.parametrize("name", PRESETS)
def test_nothing_of_a_plan_leaves_its_sheet(name: str) -> None:
    found = read_description(preset_text(name).replace("# SAY ", ""), name)
    drawn = plan(found, name, {z.name: "29 °C, 55 %" for z in found.zones})
    for shape in drawn.shapes:
        place = getattr(shape, "place", getattr(shape, "corner", getattr(shape, "centre", None)))
        if place is not None:
            assert 0 <= place[0] <= drawn.width and 0 <= place[1] <= drawn.height, shape
    assert any("29 °C" in getattr(s, "text", "") for s in drawn.shapes)
