"""Loss of mass and its trend."""

from __future__ import annotations

from datetime import date, timedelta

import pytest

from warmside.core.values.quantities import Display
from warmside.plugins.feeding.care.rules import rules_with
from warmside.plugins.feeding.condition.loss import loss, trend
from warmside.plugins.feeding.meals.records import Weighing

DAY = date(2026, 5, 1)
RULES = rules_with({}, Display.METRIC)


def weighed(days: int, mass_g: float, event: int = 0) -> Weighing:
    return Weighing(DAY - timedelta(days=days), mass_g, event)


def test_no_weighing_no_loss() -> None:
    assert loss([], DAY, RULES) is None


def test_a_growing_animal_has_lost_nothing() -> None:
    found = loss([weighed(90, 400), weighed(30, 450), weighed(0, 500)], DAY, RULES)
    assert found and (found.acute_percent, found.chronic_percent) == (0, 0) and not found.words


def test_acute_and_chronic_look_back_differently() -> None:
    found = loss([weighed(200, 1000, 1), weighed(40, 900, 2), weighed(0, 850, 3)], DAY, RULES)
    assert found
    assert found.acute_percent == pytest.approx(100 * 50 / 900)
    assert found.chronic_percent == pytest.approx(15)
    assert set(found.events) == {1, 2, 3}
    assert "of late" in found.words


def test_what_comes_after_the_day_is_not_looked_at() -> None:
    found = loss([weighed(10, 500), weighed(-5, 300)], DAY, RULES)
    assert found and found.acute_percent == 0


def test_eggs_are_no_loss() -> None:
    laid = DAY - timedelta(days=9)
    weighings = [weighed(20, 1500), weighed(8, 1000), weighed(0, 990)]
    found = loss(weighings, DAY, RULES, since=laid)
    assert found and found.chronic_percent == pytest.approx(1)


def test_the_trend_goes_from_the_first_to_the_last_weighing() -> None:
    weighings = [weighed(50, 400, 4), weighed(20, 300), weighed(0, 440, 5), weighed(300, 90)]
    found = trend(weighings, DAY - timedelta(days=56), DAY, RULES)
    assert found and found.value == pytest.approx(10)
    assert found.low < 10 < found.high and found.basis.events == (4, 5)


def test_one_weighing_is_no_trend() -> None:
    assert trend([weighed(5, 400)], DAY - timedelta(days=56), DAY, RULES) is None


def test_a_loss_of_just_the_limit_counts_whatever_floats_make_of_it() -> None:
    found = loss([weighed(20, 1000), weighed(0, 900)], DAY, RULES)
    assert found and found.acute_percent < 10 and found.reaches(RULES)
    found = loss([weighed(200, 1500), weighed(0, 1200)], DAY, RULES)
    assert found and found.reaches(RULES)
    found = loss([weighed(200, 1500), weighed(0, 1201)], DAY, RULES)
    assert found and not found.reaches(RULES)
