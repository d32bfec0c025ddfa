"""The expected mass from the last weighings."""

from __future__ import annotations

import random
from math import exp

import pytest
from hypothesis import given
from hypothesis import strategies as st

from warmside.api import Mark
from warmside.plugins.weight.course.series import NONE, weighings
from warmside.plugins.weight.course.trend import expected_from_trend, reaches

DAY = 738_000.0


@given(
    st.lists(st.floats(5, 5000), min_size=1, max_size=40), st.floats(0.01, 60), st.floats(0, 900)
)
def test_there_is_always_a_mass_within_its_range(
    masses: list[float], every: float, later: float
) -> None:
    """Whatever was weighed, as long as something was."""
    those = weighings((i, DAY + i * every, m) for i, m in enumerate(masses))
    found = expected_from_trend(those, those.days[-1] + later)
    assert found is not None and found.value is not None
    assert 0 < found.low < found.value < found.high
    assert found.basis.events[-1] == those.events[-1]


def test_no_weighing_no_mass() -> None:
    """Also where all are later."""
    assert expected_from_trend(NONE, DAY) is None
    assert expected_from_trend(weighings([(1, DAY, 50.0)]), DAY - 1) is None


def test_even_growth_goes_on_for_two_months_and_then_waits() -> None:
    """1 % a day."""
    those = weighings((i, DAY + 7 * i, 100 * exp(0.07 * i)) for i in range(12))
    last = those.days[-1]
    soon, later = (expected_from_trend(those, last + d) for d in (30, 200))
    assert soon is not None and later is not None
    assert soon.value == pytest.approx(those.masses_g[-1] * exp(0.3))
    assert later.value == pytest.approx(those.masses_g[-1] * exp(0.6))
    assert later.high / later.low > soon.high / soon.low


def test_one_odd_weighing_does_not_tilt_the_line() -> None:
    """A slip in the middle."""
    masses = [400.0, 402, 404, 4060, 408, 410, 412, 414]
    those = weighings((i, DAY + 14 * i, m) for i, m in enumerate(masses))
    found = expected_from_trend(those, DAY + 112)
    assert found is not None and found.value == pytest.approx(416, rel=0.01)


def test_a_lonely_weighing_is_taken_with_a_growing_range() -> None:
    """By common practice, and marked so."""
    one = weighings([(5, DAY, 400.0)])
    now, old = expected_from_trend(one, DAY), expected_from_trend(one, DAY + 200)
    assert now is not None and old is not None
    assert (now.value, now.low, now.high) == (400, 380, 420)
    assert (old.low, old.high) == (260, 540)
    assert now.basis.source.mark is Mark.COMMON_PRACTICE


def test_the_range_holds_the_next_weighing_at_its_rate() -> None:
    """About 95 of 100, for animals that grow evenly with noise."""
    rng = random.Random(3)
    inside = 0
    for _ in range(400):
        rate, start = rng.uniform(-0.001, 0.004), rng.uniform(10, 3000)
        rows = [
            (i, DAY + 14 * i, start * exp(14 * i * rate + rng.gauss(0, 0.04))) for i in range(9)
        ]
        found = expected_from_trend(weighings(rows[:-1]), rows[-1][1])
        assert found is not None
        inside += found.low <= rows[-1][2] <= found.high
    assert 0.88 < inside / 400 < 0.99


def test_the_last_weighings_reach_two_months_ahead_a_single_one_a_month() -> None:
    """Further on growth is unknown, and others may reckon with it."""
    line = weighings((i, DAY + 14 * i, 100.0 + i) for i in range(5))
    alone = weighings([(1, DAY, 50.0)])
    for those, days in ((line, 60), (alone, 30)):
        assert reaches(those, those.days[-1] + days)
        assert not reaches(those, those.days[-1] + days + 2)
    assert not reaches(NONE, DAY)
