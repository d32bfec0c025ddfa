"""Walls, losses and cooling down against printed examples and an integrator."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from warmside.api import BadInput
from warmside.plugins.habitat.heat.losses import (
    Wall,
    conductance_w_per_k,
    warmest_c,
)
from warmside.plugins.habitat.heat.powercut import hours_until, time_constant_h, warm_for
from warmside.plugins.habitat.heat.walls import Layer, u_value


@pytest.mark.parametrize(
    ("layers", "films", "expected", "within"),
    [
        # a UK guide's page: plasterboard, block, wool, brick; U 0.29
        ([(13, 0.21), (100, 0.51), (100, 0.035), (102, 0.77)], (0.13, 0.04), 0.29, 0.005),
        # an energy-saving page: render, two bricks, plaster; U 1.84
        ([(18, 0.50), (102, 0.77), (102, 0.56), (13, 0.57)], (0.13, 0.04), 1.84, 0.02),
        # single boards in a room, by the method of ISO 6946, worked out apart
        ([(18, 0.14)], (0.13, 0.13), 2.5735, 1e-3),
        ([(12, 0.13)], (0.13, 0.13), 2.8384, 1e-3),
        ([(10, 0.17)], (0.13, 0.13), 3.1365, 1e-3),
        ([(4, 1.0)], (0.13, 0.13), 3.7879, 1e-3),
        ([(6, 1.0)], (0.13, 0.13), 3.7594, 1e-3),
        ([(5, 0.18)], (0.13, 0.13), 3.4749, 1e-3),
        ([(25, 0.035)], (0.13, 0.13), 1.0264, 1e-3),
    ],
)
def test_walls(layers, films, expected: float, within: float) -> None:
    assert u_value([Layer(*x) for x in layers], *films) == pytest.approx(expected, abs=within)


def test_a_brick() -> None:
    """102 mm at 0.84 W/mK: 0.121 m2K/W (energy-saving page)."""
    assert Layer(102, 0.84).resistance == pytest.approx(0.121, abs=0.001)


@pytest.mark.parametrize("layers", [[Layer(0, 0.1)], [Layer(10, 0)], [Layer(-5, 0.2)]])
def test_a_wall_of_nothing_is_refused(layers: list[Layer]) -> None:
    with pytest.raises(BadInput, match="above 0"):
        u_value(layers, 0.13, 0.13)
    with pytest.raises(BadInput, match="needs a layer"):
        u_value([], 0, 0)


def test_heat_that_is_lost_is_the_heat_that_is_needed() -> None:
    conductance = conductance_w_per_k([Wall(2.0, 2.5), Wall(0.5, 3.8)], 1.0)
    assert conductance == pytest.approx(2.0 * 2.5 + 0.5 * 3.8 + 0.34)
    watts = conductance * (30 - 20)
    assert warmest_c(conductance, watts, 20) == pytest.approx(30)


@given(st.floats(26, 34), st.floats(5, 20), st.floats(21, 25), st.floats(0.1, 5))
def test_cooling_down_against_an_integrator(
    start: float, room: float, limit: float, constant: float
) -> None:
    """Newton's law, integrated by SciPy's solve_ivp."""
    from scipy.integrate import solve_ivp

    hours = hours_until(start, room, limit, constant)
    assert hours is not None
    solved = solve_ivp(
        lambda _, t: -(t - room) / constant, (0, hours), [start], rtol=1e-9, atol=1e-9
    )
    assert solved.y[0][-1] == pytest.approx(limit, abs=1e-5)


def test_a_room_that_is_warm_enough_never_cools_it_down() -> None:
    assert hours_until(28, 22, 20, 1.0) is None
    assert hours_until(19, 15, 20, 1.0) == 0.0
    assert warm_for(28, 22, 20, 5.0, 0.2, 30, 2) is None


def test_mass_and_water_keep_it_warm_longer_and_the_answer_is_a_range() -> None:
    light = warm_for(30, 18, 22, 5.0, 0.2, 10, 0)
    heavy = warm_for(30, 18, 22, 5.0, 0.2, 10, 5)
    assert light and heavy
    assert light.least < light.most < heavy.most
    assert heavy.least > light.least
    assert time_constant_h(3600 * 5.0, 5.0) == pytest.approx(1.0)
