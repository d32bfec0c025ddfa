"""Where a wall sweats: its inner face against the dew point."""

from __future__ import annotations

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from warmside.plugins.habitat.air.moist import dew_point_c
from warmside.plugins.habitat.heat.materials import materials
from warmside.plugins.habitat.heat.sweating import sweat, zone_by_zone
from warmside.plugins.habitat.heat.walls import Layer

GLASS = Layer(4, 1.0)


def test_the_inner_face_of_a_pane_between_two_rooms() -> None:
    """4 mm of glass between films of 0.13 lets through 3.7879 W/m2K (ISO 6946, worked out), so of
    26 to 17 degrees the inner film takes 0.13 times that: 49.24 %."""
    found = sweat(GLASS, 26.0, 70.0, 17.0)
    assert found.face_c == pytest.approx(26 - 0.13 * 3.7879 * 9, abs=1e-3)


def test_a_pane_sweats_at_the_dew_point_of_its_air() -> None:
    """25 degrees and 50 % condense at 13.86 (ASHRAE 2017, worked out by its equations)."""
    assert sweat(GLASS, 25.0, 50.0, 5.0).dew_c == pytest.approx(13.86, abs=0.02)
    dry = 25 - (25 - 13.86) / (0.13 * 3.7879)
    assert sweat(GLASS, 25.0, 50.0, dry - 0.1).wet and not sweat(GLASS, 25.0, 50.0, dry + 0.1).wet


def test_wood_sweats_later_than_glass() -> None:
    board = Layer(15, materials()["wood"].conductivity.high)
    assert sweat(board, 28.0, 80.0, 15.0).from_percent > sweat(GLASS, 28.0, 80.0, 15.0).from_percent


def test_of_one_vapour_the_coolest_zone_is_the_dampest() -> None:
    zones = {"warm side": 31.0, "cool side": 24.0}
    warm, cool = zone_by_zone(GLASS, zones, (31.0, 50.0), 13.0)
    assert (warm.percent, round(cool.percent)) == (pytest.approx(50.0), 75)
    assert dew_point_c(24.0, cool.percent) == pytest.approx(dew_point_c(31.0, 50.0))
    assert (warm.wall.wet, cool.wall.wet) == (False, True)


@settings(max_examples=40)
@given(st.floats(5, 40), st.floats(1, 99.5), st.floats(-10, 40), st.floats(0.5, 30))
def test_it_sweats_from_the_humidity_that_is_named(
    inside: float, percent: float, room: float, thick: float
) -> None:
    found = sweat(Layer(thick, 0.5), inside, percent, room)
    if abs(percent - found.from_percent) > 0.01:
        assert found.wet == (percent > found.from_percent)
