"""What an animal ate against what it burns."""

from __future__ import annotations

from datetime import date, timedelta

import pytest
from hypothesis import given
from hypothesis import strategies as st

from warmside.core.values.basis import Basis, Estimate, Mark
from warmside.core.values.errors import BadInput
from warmside.core.values.quantities import Display
from warmside.core.values.units import Unit
from warmside.plugins.feeding.care.diets import Stage
from warmside.plugins.feeding.care.rules import rules_with
from warmside.plugins.feeding.care.species import species_rows
from warmside.plugins.feeding.condition.balance import Balance, Verdict, balance, kept_down, meal_kj
from warmside.plugins.feeding.energy.rates import steady_day
from warmside.plugins.feeding.meals.records import Offer

DAY = date(2026, 5, 1)
RULES = rules_with({}, Display.METRIC)
KING = species_rows()["Lampropeltis californiae"]


def grams(value: float) -> Estimate:
    return Estimate(value, value, value, Unit.MASS, Basis("given"))


def percent(value: float) -> Estimate:
    return Estimate(value, value - 2, value + 2, Unit.PERCENT, Basis("given"))


def meals(every: int, weeks: int, prey: str = "mouse-adult", each_g: float = 25) -> list[Offer]:
    return [
        Offer(DAY - timedelta(days=d), prey, 1, 1, each_g, event=d + 1)
        for d in range(0, 7 * weeks, every)
    ]


def found(
    offers: list[Offer],
    mass_g: float = 500,
    weeks: int = 8,
    trend: float | None = None,
    stage: Stage = Stage.ADULT,
) -> Balance:
    change = None if trend is None else percent(trend)
    day = steady_day(28)
    mass = grams(mass_g)
    return balance(KING, mass, offers, DAY, weeks, RULES, day=day, stage=stage, trend=change)


def test_a_mouse_a_week_is_about_even_for_half_a_kilo() -> None:
    result = found(meals(7, 8), trend=1)
    assert result.verdict is Verdict.EVEN and result.meals == 8
    assert result.ratio.low < 1 < result.ratio.high
    assert "its weight held" in result.words
    assert len(result.eaten.basis.events) == 8


def test_three_mice_in_eight_weeks_are_less_than_it_burns() -> None:
    result = found(meals(21, 8))
    assert result.verdict is Verdict.LESS and "see a vet" in result.words


def test_a_balance_of_too_few_or_unweighed_meals_is_not_told_but_what_it_lacks() -> None:
    one = found(meals(56, 8))
    assert one.verdict is Verdict.UNCLEAR and not one.is_clear
    assert "at least 3 meals (there are 1)" in one.words and "readings" not in one.words
    guessed = found([Offer(o.day, o.prey, 1, 1) for o in meals(7, 8)])
    assert guessed.verdict is Verdict.UNCLEAR
    assert "the prey weighed (0 of 8 meals)" in guessed.words


def test_independent_errors_are_not_all_taken_at_their_worst() -> None:
    result = found(meals(7, 8))
    net, resting = result.net, result.needs.resting
    assert net.low / resting.high < result.ratio.low < result.ratio.high < net.high / resting.low
    assert result.ratio.high < 3 * result.ratio.low


def test_three_mice_a_week_for_long_are_more_than_an_adult_needs() -> None:
    assert found(meals(2, 12), weeks=12).verdict is Verdict.SURPLUS
    assert found(meals(2, 8), weeks=8).verdict is Verdict.GROWING


def test_a_young_animal_that_eats_much_is_growing() -> None:
    eaten = meals(5, 12, "mouse-hopper", 10)
    result = found(eaten, mass_g=80, weeks=12, trend=40, stage=Stage.JUVENILE)
    assert result.verdict is Verdict.GROWING and "rose by 40 %" in result.words


def test_a_falling_weight_overrules_a_surplus_and_is_said() -> None:
    result = found(meals(2, 12), weeks=12, trend=-10)
    assert result.verdict is not Verdict.SURPLUS
    assert "does not agree: trust the scale" in result.words


def test_without_any_meal_on_record_nothing_is_said() -> None:
    result = found([])
    assert result.verdict is Verdict.UNKNOWN and "nothing can be said" in result.words


def test_meals_long_ago_are_a_fast_now() -> None:
    old = [Offer(DAY - timedelta(days=300), "mouse-adult", 1, 1)]
    assert found(old).verdict is Verdict.LESS


def test_a_regurgitated_meal_does_not_count() -> None:
    offers = meals(7, 8)
    kept = kept_down(offers, [DAY - timedelta(days=13)])
    assert DAY - timedelta(days=14) not in [o.day for o in kept] and len(kept) == 7


def test_what_came_back_is_the_meal_before_and_not_a_refused_one_between() -> None:
    first, last = Offer(DAY - timedelta(days=20), "mouse-adult", 1, 1), DAY - timedelta(days=10)
    refused = Offer(DAY - timedelta(days=12), "mouse-adult", 1, 0)
    assert kept_down([first, refused, Offer(last, "mouse-adult", 1, 1)], [last]) == (first,)
    assert kept_down([first, refused], [last]) == ()


def test_an_unweighed_meal_has_a_wider_range() -> None:
    weighed = meal_kj(Offer(DAY, "mouse-adult", 1, 1, 24))
    guessed = meal_kj(Offer(DAY, "mouse-adult", 1, 1))
    assert guessed[0] == pytest.approx(weighed[0])
    assert guessed[1] < weighed[1] < weighed[2] < guessed[2]


def test_the_least_sure_prey_marks_the_sum() -> None:
    mixed = [*meals(14, 8), *meals(14, 8, "rat-fuzzy", 14)]
    assert found(mixed).eaten.basis.source.mark is Mark.FROM_MEMORY
    assert found(meals(7, 8)).eaten.basis.source.mark is Mark.PUBLISHED


def test_far_too_much_is_said_to_be_above_the_field_rate() -> None:
    assert "above the field rate" in found(meals(1, 12, "rat-medium", 120), weeks=12).words


def test_weeks_must_be_at_least_one() -> None:
    with pytest.raises(BadInput, match="at least 1"):
        found([], weeks=0)


def test_meals_of_unknown_prey_are_left_out_and_that_is_said() -> None:
    result = found([*meals(7, 8), Offer(DAY, "something from a friend", 1, 1)])
    assert result.meals == 8 and "1 meal of no known prey class left out" in result.words
    with pytest.raises(BadInput, match="no prey class"):
        meal_kj(Offer(DAY, "mose-adult", 1, 1))


@given(st.integers(1, 30), st.integers(1, 26), st.floats(20, 5000))
def test_the_ratio_lies_in_its_range(every: int, weeks: int, mass_g: float) -> None:
    result = found(meals(every, weeks), mass_g, weeks)
    assert result.ratio.value is not None
    assert 0 <= result.ratio.low <= result.ratio.value <= result.ratio.high


@given(st.integers(2, 30), st.floats(50, 2000))
def test_eating_more_often_never_lowers_the_ratio(every: int, mass_g: float) -> None:
    seldom, often = (found(meals(n, 8), mass_g).ratio.value for n in (every, every // 2))
    assert seldom is not None and often is not None and seldom <= often
