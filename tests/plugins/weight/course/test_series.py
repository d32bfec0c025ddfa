"""Weighings as columns, meals taken off, ages."""

from __future__ import annotations

from statistics import median

import pytest
from hypothesis import given
from hypothesis import strategies as st

from warmside.core.values.display import Display, parse_display
from warmside.plugins.weight.course.level import height
from warmside.plugins.weight.course.series import (
    NONE,
    MassWords,
    day_text,
    gram_text,
    less_meals,
    middle,
    weighings,
)

THREE = weighings([(3, 730_020.0, 420.0), (1, 730_000.0, 400.0), (2, 730_010.0, 410.0)])


def test_rows_are_put_in_order_of_day() -> None:
    """Whatever order they come in."""
    assert THREE.events == (1, 2, 3)
    assert weighings([]) == NONE


def test_a_stretch_includes_both_ends() -> None:
    """By day."""
    assert THREE.between(730_000, 730_010).events == (1, 2)
    assert THREE.between(730_011, 730_019) == NONE


def test_named_events_are_left_out() -> None:
    """And nothing else."""
    assert THREE.without([2, 99]).masses_g == (400.0, 420.0)
    assert THREE.without(()) is THREE
    assert THREE.without((1, 2, 3)) == NONE


@pytest.mark.parametrize(
    ("day", "gut"), [(730_010.0, 40.0), (730_008.0, 24.0), (730_005.0, 0.0), (730_011.0, 0.0)]
)
def test_a_meal_falls_evenly_to_nothing(day: float, gut: float) -> None:
    """Whole on its day, gone after five days, no matter before it is eaten."""
    found = less_meals(THREE, [(day, 40.0)], 5.0)
    assert found.masses_g == pytest.approx((400.0, 410.0 - gut, 420.0))


def test_two_meals_add_up() -> None:
    """Both within the days of digestion."""
    found = less_meals(THREE, [(730_009.0, 20.0), (730_010.0, 20.0)], 5.0)
    assert found.masses_g[1] == pytest.approx(410 - 16 - 20)


def test_a_meal_as_heavy_as_the_animal_is_not_believed() -> None:
    """It is left on, or a typing error in a meal would look like starvation."""
    assert less_meals(THREE, [(730_010.0, 300.0)], 5.0) == THREE


@given(st.lists(st.tuples(st.floats(0, 100), st.floats(0, 500)), max_size=20))
def test_less_meals_is_never_more_and_never_less_than_half(
    meals: list[tuple[float, float]],
) -> None:
    """Whatever was eaten."""
    those = weighings((i, float(i * 3), 300.0) for i in range(30))
    found = less_meals(those, sorted(meals), 5.0)
    assert all(150.0 <= mass <= 300.0 for mass in found.masses_g)


def test_the_middle_is_the_median() -> None:
    """Of odd and even counts."""
    assert middle([3.0, 1.0, 2.0]) == 2.0
    assert middle([4.0, 1.0, 2.0, 3.0]) == 2.5


def test_words_for_days_and_grams() -> None:
    """As on a label."""
    assert day_text(730_000.7) == "1999-09-03"
    assert [gram_text(m, Display.METRIC) for m in (4.123, 41.26, 412.4, 4120.0)] == [
        "4.12 g", "41.3 g", "412 g", "4120 g",
    ]  # fmt: skip


def test_a_sentence_says_its_masses_as_the_collection_shows_them() -> None:
    """The keeper weighs in grams, or in ounces, or has chosen kilograms."""
    words = MassWords("{} is far from the {}", (4120.0, 412.0))
    assert words.said(Display.METRIC) == "4120 g is far from the 412 g"
    assert words.said(Display.US_TRADE) == "4120 g is far from the 412 g"
    assert words.said(Display.IMPERIAL) == "9 lb 1.3 oz is far from the 14.53 oz"
    assert words.said(parse_display("mass=kg")) == "4.12 kg is far from the 0.412 kg"


@given(st.lists(st.floats(1, 999), max_size=12), st.floats(0, 120))
def test_the_height_is_the_highest_median_of_three_running_before_the_last_two(
    masses: list[float], days: float
) -> None:
    """As `statistics.median` has it; the last of the three lies within so many days."""
    those = weighings((i, 738_000.0 + 9 * i, mass) for i, mass in enumerate(masses))
    threes = [(i, median(masses[i - 2 : i + 1])) for i in range(2, len(masses) - 2)]
    late = [m for i, m in threes if those.days[i] >= those.days[-1] - days]
    assert not len(those) or height(those, days) == max(late, default=None)
