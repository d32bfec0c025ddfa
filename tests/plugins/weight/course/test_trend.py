"""The expected mass from the last weighings."""

from __future__ import annotations

import random
from itertools import accumulate
from math import exp

import pytest
from hypothesis import given
from hypothesis import strategies as st

from warmside.api import Mark
from warmside.plugins.weight.course.series import NONE, weighings
from warmside.plugins.weight.course.trend import expected_from_trend, fit_at_last, reaches

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
    assert 0 < found.low < found.value < found.high < float("inf")
    assert found.basis.events[-1] == those.events[-1]


def test_no_weighing_no_mass() -> None:
    """Also where all are later."""
    assert expected_from_trend(NONE, DAY) is None
    assert expected_from_trend(weighings([(1, DAY, 50.0)]), DAY - 1) is None


def test_even_growth_goes_on_for_two_months_and_then_waits() -> None:
    """1 % a day; the less is sure the further it is ahead."""
    those = weighings((i, DAY + 7 * i, 100 * exp(0.07 * i)) for i in range(12))
    soon, last, later = (expected_from_trend(those, those.days[-1] + d) for d in (30, 60, 200))
    assert soon is not None and last is not None and later is not None
    assert soon.value == pytest.approx(those.masses_g[-1] * exp(0.3), rel=0.03)
    assert later.value == last.value
    assert later.high / later.low > last.high / last.low > soon.high / soon.low


def test_on_its_own_day_a_weighing_is_what_it_weighs() -> None:
    """Also where it lies off the course; a week later most of that is forgotten."""
    masses = [30.0, 31, 30.5, 31, 30.8, 31.2, 30.9, 28.8]
    those = weighings((i, DAY + 14 * i, m) for i, m in enumerate(masses))
    today, soon = (expected_from_trend(those, those.days[-1] + d) for d in (0.999, 20))
    assert today is not None and soon is not None
    assert today.value == pytest.approx(28.8)
    assert today.high < 31
    assert 29.3 < soon.value < 30.8


def test_what_the_body_wanders_about_its_level_is_no_error_of_a_weighing() -> None:
    """Simulated: 1 % of wander and readings 1.8 % off; 95 of 100 ranges of a day, not 98."""
    rng, inside = random.Random(5), 0
    for _ in range(400):
        true = [500 * exp(rng.gauss(0, 0.01)) for _ in range(12)]
        read = (round(mass * (1 + rng.gauss(0, 0.018))) for mass in true)
        those = weighings((k, DAY + 28 * k, float(mass)) for k, mass in enumerate(read))
        today = expected_from_trend(those, those.days[-1] + 0.99)
        assert today is not None
        inside += today.low <= true[-1] <= today.high
    assert 0.93 < inside / 400 < 0.98


def test_growth_that_slows_is_not_carried_on_as_a_straight_line() -> None:
    """Gompertz growth of a gecko without noise: 30 days on within 3 %, where a line is 15 % off."""
    mass = lambda day: 60 * exp(-3 * exp(-0.008 * day))  # noqa: E731
    those = weighings((i, DAY + 7 * i, mass(7 * i)) for i in range(12))
    found = expected_from_trend(those, DAY + 77 + 30)
    assert found is not None and found.value == pytest.approx(mass(107), rel=0.03)


def test_equal_weighings_leave_room_for_gut_and_scale() -> None:
    """No range of no width; a scale that shows 5 g leaves more of it for 60 g than for 600 g."""
    halves = []
    for mass in (60.0, 600.0):
        those = weighings((i, DAY + 30 * i, mass) for i in range(8))
        found = expected_from_trend(those, those.days[-1])
        assert found is not None
        halves.append(found.high / mass - 1)
    assert halves[0] > halves[1] > 0.025


def test_only_weighings_since_the_last_clutch_count() -> None:
    """She is not expected to weigh what she weighed with her eggs."""
    those = weighings((i, DAY + 14 * i, m) for i, m in enumerate((500.0, 520, 540, 370, 372)))
    found = expected_from_trend(those, DAY + 60, laid=[DAY + 35])
    assert found is not None and found.value == pytest.approx(372, rel=0.01)


def test_a_dam_not_weighed_since_she_laid_has_a_range_and_no_figure() -> None:
    """Up to the greatest clutch less; by her own earlier clutches where those are on record."""
    those = weighings((i, DAY + 14 * i, m) for i, m in enumerate((500.0, 520, 540)))
    found = expected_from_trend(those, DAY + 40, laid=[DAY + 30])
    assert found is not None and found.value is None
    assert (found.low, found.high) == (pytest.approx(540 * 0.55), 540)
    before = weighings((i, DAY + 14 * i, m) for i, m in enumerate((60.0, 54, 60)))
    own = expected_from_trend(before, DAY + 40, laid=[DAY + 7, DAY + 30])
    assert own is not None and own.low == pytest.approx(60 * 0.85) and own.high < 60


def test_one_odd_weighing_does_not_tilt_the_line() -> None:
    """A slip in the middle."""
    masses = [400.0, 402, 404, 4060, 408, 410, 412, 414]
    those = weighings((i, DAY + 14 * i, m) for i, m in enumerate(masses))
    found = expected_from_trend(those, DAY + 112)
    assert found is not None and found.value == pytest.approx(416, rel=0.01)


@given(
    st.lists(st.tuples(st.integers(0, 60), st.floats(20, 40)), min_size=1, max_size=16),
    st.lists(st.integers(0, 400), max_size=2),
    st.integers(-60, 450),
)
def test_a_fit_that_was_kept_says_on_any_day_what_one_made_anew_says(
    rows: list[tuple[int, float]], laid: list[int], later: int
) -> None:
    days = list(accumulate(gap for gap, _ in rows))
    masses = zip(days, rows, strict=True)
    those = weighings((i, DAY + day, mass) for i, (day, (_, mass)) in enumerate(masses))
    clutches, day = [DAY + d for d in laid], DAY + days[-1] + later
    kept = fit_at_last(those, clutches)
    anew = expected_from_trend(those, day, clutches)
    assert expected_from_trend(those, day, clutches, kept) == anew


def test_a_lonely_weighing_is_taken_with_a_growing_range() -> None:
    """By common practice, and marked so."""
    one = weighings([(5, DAY, 400.0)])
    now, old = expected_from_trend(one, DAY), expected_from_trend(one, DAY + 200)
    assert now is not None and old is not None
    assert now.value == old.value == pytest.approx(400)
    assert 375 < now.low < 390 and 250 < old.low < 300
    assert now.basis.source.mark is Mark.COMMON_PRACTICE


def test_the_range_holds_the_next_weighing_at_its_rate() -> None:
    """About 95 of 100, for animals that grow evenly with noise."""
    rng = random.Random(3)
    inside = 0
    for _ in range(400):
        rate, start = rng.uniform(-0.001, 0.004), rng.uniform(10, 3000)
        rows = [
            (i, DAY + 14 * i, start * exp(14 * i * rate + rng.gauss(0, 0.03))) for i in range(9)
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
