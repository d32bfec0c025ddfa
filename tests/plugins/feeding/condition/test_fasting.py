"""What a fast costs, held against measured fasts."""

from __future__ import annotations

from datetime import date, timedelta

import pytest
from hypothesis import given
from hypothesis import strategies as st

from warmside.plugins.feeding.condition.fasting import cost_of, expected_loss
from warmside.plugins.feeding.energy.rates import steady_day
from warmside.plugins.feeding.meals.records import Weighing

EATEN = date(2026, 1, 1)
WARM = steady_day(30)


def weighed(days: int, mass_g: float) -> Weighing:
    return Weighing(EATEN + timedelta(days=days), mass_g, days)


@pytest.mark.parametrize(
    ("mass_g", "percent"), [(100, 2.6), (500, 1.9), (1500, 1.5)], ids=["100g", "500g", "1500g"]
)
def test_the_floor_is_fat_alone_at_the_standard_rate(mass_g: float, percent: float) -> None:
    """Andrews & Pough 1985 at 30 °C over 30 days; fat of 39.3 kJ/g (from memory, high)."""
    floor = expected_loss(mass_g, 30, WARM).low * 42.0 / 39.3
    assert 100 * floor / mass_g == pytest.approx(percent, abs=0.06)


@pytest.mark.parametrize("percent", [9.3, 18.3, 24.4], ids=["rat snake", "ball python", "viper"])
def test_half_a_year_without_food_as_measured(percent: float) -> None:
    """McCue 2007 (Zoology; digest in J Exp Biol 210(23):vii): 168 days, sub-adults, water given.

    A laboratory's fast, no advice. Masses and temperatures are not in the digest: 300 g and 30 °C
    are assumed, and the range is widened by the 30 % by which fits of the rate differ.
    """
    told = expected_loss(300, 168, WARM)
    assert 0.7 * told.low <= 0.01 * percent * 300 <= 1.3 * told.high


def test_the_days_of_digestion_cost_nothing() -> None:
    found = cost_of((weighed(-5, 1500), weighed(127, 1430)), EATEN, WARM)
    assert found and found.days == 120 and found.seen_g == 70
    assert found.expected.low == pytest.approx(120 * 30.076 / 42, rel=1e-3)
    assert found.expected.high == pytest.approx(120 * 41.516 / 30, rel=1e-3)


def test_without_two_weighings_three_weeks_apart_nothing_is_said() -> None:
    assert cost_of((), EATEN, WARM) is None
    assert cost_of((weighed(10, 1500),), EATEN, WARM) is None
    assert cost_of((weighed(0, 1500), weighed(25, 1490)), EATEN, WARM) is None
    assert cost_of((weighed(-90, 1600), weighed(40, 1490)), EATEN, WARM) is None


@given(st.floats(5, 5000), st.integers(21, 300), st.floats(15, 35))
def test_longer_and_warmer_costs_more(mass_g: float, days: int, warm_c: float) -> None:
    told = expected_loss(mass_g, days, steady_day(warm_c))
    longer = expected_loss(mass_g, days + 1, steady_day(warm_c))
    warmer = expected_loss(mass_g, days, steady_day(warm_c + 1))
    assert 0 < told.low < told.high
    assert longer.low > told.low and warmer.high > told.high
