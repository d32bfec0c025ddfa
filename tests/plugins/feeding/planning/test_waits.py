"""Reasons to wait with a meal."""

from __future__ import annotations

from datetime import date, timedelta

import pytest

from warmside.core.values.quantities import Display
from warmside.plugins.feeding.care.rules import rules_with
from warmside.plugins.feeding.meals.records import Offer
from warmside.plugins.feeding.planning.waits import Situation, Wait, waits

DAY = date(2026, 5, 1)
RULES = rules_with({}, Display.METRIC)


def ago(days: int) -> date:
    return DAY - timedelta(days=days)


def only(situation: Situation, offers: tuple[Offer, ...] = ()) -> Wait:
    (wait,) = waits(situation, offers, DAY, RULES)
    return wait


def test_nothing_known_is_no_reason() -> None:
    assert waits(Situation(), (), DAY, RULES) == ()


@pytest.mark.parametrize(
    ("situation", "code"),
    [(Situation(arrived=ago(2)), "arrived"), (Situation(moved=ago(2)), "moved")],
)
def test_a_new_or_moved_animal_is_left_alone_for_a_week(situation: Situation, code: str) -> None:
    wait = only(situation)
    assert wait.code == code and wait.blocks and wait.until == ago(-5)
    assert waits(situation, (), ago(-5), RULES) == ()


def test_the_week_is_a_setting() -> None:
    longer = rules_with({"arrival_days": 20}, Display.METRIC)
    (wait,) = waits(Situation(arrived=ago(7)), (), DAY, longer)
    assert wait.until == ago(-13) and "20" in wait.basis.rule


def test_opaque_eyes_wait_for_the_slough() -> None:
    wait = only(Situation(opaque_since=ago(3)))
    assert wait.blocks and wait.until == ago(-11) and "wait for the slough" in wait.words


def test_a_slough_that_does_not_come_is_no_longer_waited_for_but_said() -> None:
    wait = only(Situation(opaque_since=ago(20)))
    assert not wait.blocks and "no slough recorded" in wait.words


def test_shortly_before_an_expected_slough_it_waits() -> None:
    wait = only(Situation(slough_expected=(ago(2), ago(-6))))
    assert wait.blocks and wait.until == ago(-3)


def test_a_wide_window_only_says_that_it_may_refuse() -> None:
    wait = only(Situation(slough_expected=(ago(2), ago(-40))))
    assert not wait.blocks and "may refuse" in wait.words


def test_after_a_regurgitation_it_rests_two_weeks_then_eats_less() -> None:
    situation = Situation(regurgitations=(ago(5),))
    resting = only(situation)
    assert resting.blocks and resting.until == ago(-9) and resting.percent == 50
    (then,) = waits(situation, (), ago(-9), RULES)
    assert not then.blocks and then.percent == 50


def test_two_small_meals_that_stay_down_end_it() -> None:
    situation = Situation(regurgitations=(ago(40),))
    one = Offer(ago(20), "mouse-weaned", 1, 1)
    two = Offer(ago(10), "mouse-weaned", 1, 1)
    assert only(situation, (one,)).percent == 50
    assert waits(situation, (one, two), DAY, RULES) == ()


def test_a_second_regurgitation_goes_to_a_vet_before_the_next_meal() -> None:
    wait = only(Situation(regurgitations=(ago(30), ago(20))))
    assert wait.see_vet and wait.blocks and wait.until is None and "see a vet" in wait.words
    assert wait.percent == 50, "the meal shown beside it is no full one"
    assert "120 days" in wait.basis.rule


def test_two_regurgitations_years_apart_are_no_repeat() -> None:
    assert not only(Situation(regurgitations=(ago(900), ago(5)))).see_vet


def test_gravid_means_smaller_meals_until_she_has_laid() -> None:
    wait = only(Situation(gravid_since=ago(20)))
    assert not wait.blocks and wait.percent == 60
    assert waits(Situation(gravid_since=ago(20), laid=ago(1)), (), DAY, RULES) == ()


@pytest.mark.parametrize(
    ("start", "end", "until"),
    [(ago(20), None, None), (ago(60), ago(3), ago(-4)), (ago(-10), ago(-80), ago(-87))],
)
def test_winter_cooling_waits_before_during_and_after(
    start: date, end: date | None, until: date | None
) -> None:
    wait = only(Situation(cooling=(start, end)))
    assert wait.code == "cooling" and wait.blocks and wait.until == until


@pytest.mark.parametrize("span", [(ago(90), ago(7)), (ago(-15), ago(-90))])
def test_cooling_is_over_or_far_off(span: tuple[date, date]) -> None:
    assert waits(Situation(cooling=span), (), DAY, RULES) == ()


def test_blocking_reasons_come_first() -> None:
    found = waits(Situation(gravid_since=ago(20), opaque_since=ago(1)), (), DAY, RULES)
    assert [w.code for w in found] == ["opaque", "gravid"]
