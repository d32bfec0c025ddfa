"""Grams eaten a month against the body."""

from __future__ import annotations

from datetime import date, timedelta

import pytest

from warmside.core.values.basis import Mark, Source
from warmside.plugins.feeding.condition.intake import Intake, intake, usual_a_month
from warmside.plugins.feeding.meals.records import Offer, Weighing

DAY = date(2026, 5, 1)
SINCE = DAY - timedelta(days=56)
USUAL = ((5.0, 8.0), (10.0, 14.0), Source("usual", Mark.COMMON_PRACTICE))


def meal(ago: int, each_g: float | None = 25, prey: str = "mouse-adult") -> Offer:
    return Offer(DAY - timedelta(days=ago), prey, 1, 1, each_g, event=ago + 1)


def eaten(*meals: Offer, weighed: tuple[Weighing, ...] = ()) -> Intake:
    return intake(meals, weighed, 450, SINCE, DAY, USUAL)


def test_a_mouse_every_ten_days_as_a_month_and_a_share() -> None:
    found = eaten(*(meal(n) for n in (5, 15, 25, 35, 45)))
    assert found.meals == 5 and found.month_g.value == pytest.approx(5 * 25 * 30.4 / 56)
    assert found.month_percent.value == pytest.approx(15.08, abs=0.01)
    assert found.usual_percent == pytest.approx((5 * 30.4 / 14, 8 * 30.4 / 10))
    assert found.verdict == "as usual"


def test_much_and_little_are_said_only_where_the_range_allows() -> None:
    assert eaten(meal(5)).verdict == "less than usual"
    assert eaten(*(meal(n, 40) for n in range(0, 50, 3))).verdict == "more than usual"
    unweighed = eaten(*(meal(n, None) for n in (5, 15, 25, 35, 45)))
    assert unweighed.month_g.low < unweighed.month_g.high and unweighed.weighed == 0


def test_the_gain_per_gram_eaten() -> None:
    scale = (Weighing(SINCE, 440), Weighing(DAY, 460))
    found = eaten(*(meal(n) for n in (5, 15, 25, 35)), weighed=scale)
    assert found.gain_g == 20 and found.per_gram == pytest.approx(0.2)
    assert eaten(meal(5), weighed=scale[:1]).gain_g is None


def test_what_is_no_known_food_does_not_count() -> None:
    assert eaten(meal(5, prey="leftovers")).meals == 0


def test_the_span_of_a_month() -> None:
    assert usual_a_month((10, 10), (30.4, 30.4)) == (10, 10)
