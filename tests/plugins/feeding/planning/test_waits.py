"""Reasons to wait with a meal."""

from __future__ import annotations

from datetime import date, timedelta

import pytest

from warmside.core.values.basis import Mark
from warmside.core.values.quantities import Display
from warmside.plugins.feeding.care.diets import Stage
from warmside.plugins.feeding.care.rules import rules_with
from warmside.plugins.feeding.care.stages import Stages
from warmside.plugins.feeding.meals.records import Offer
from warmside.plugins.feeding.planning.rests import rests_for
from warmside.plugins.feeding.planning.waits import Situation, Wait, standing, waits

DAY = date(2026, 5, 1)
RULES = rules_with({}, Display.METRIC)
SNAKE = rests_for("snake", "", (Stage.ADULT,), RULES)
GECKO = rests_for("lizard", "", (Stage.JUVENILE,), RULES)


def ago(days: int) -> date:
    return DAY - timedelta(days=days)


def only(situation: Situation, offers: tuple[Offer, ...] = ()) -> Wait:
    (wait,) = waits(situation, offers, DAY, SNAKE)
    return wait


def test_nothing_known_is_no_reason() -> None:
    assert waits(Situation(), (), DAY, SNAKE) == ()


@pytest.mark.parametrize(
    ("situation", "code"),
    [(Situation(arrived=ago(2)), "arrived"), (Situation(moved=ago(2)), "moved")],
)
def test_a_new_or_moved_animal_is_left_alone_for_a_week(situation: Situation, code: str) -> None:
    wait = only(situation)
    assert wait.code == code and wait.blocks and wait.until == ago(-5)
    assert waits(situation, (), ago(-5), SNAKE) == ()


def test_the_week_is_a_setting() -> None:
    longer = rules_with({"arrival_days": 20}, Display.METRIC)
    rests = rests_for("snake", "", (Stage.ADULT,), longer)
    (wait,) = waits(Situation(arrived=ago(7)), (), DAY, rests)
    assert wait.until == ago(-13) and "20" in wait.basis.rule


def test_opaque_eyes_wait_for_the_slough() -> None:
    wait = only(Situation(opaque_since=ago(3)))
    assert wait.blocks and wait.until == ago(-11) and "wait for the shed" in wait.words


def test_a_slough_that_does_not_come_is_no_longer_waited_for_but_said() -> None:
    wait = only(Situation(opaque_since=ago(20)))
    assert not wait.blocks and "no shed recorded" in wait.words


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
    (then,) = waits(situation, (), ago(-9), SNAKE)
    assert not then.blocks and then.percent == 50


def test_two_small_meals_that_stay_down_end_it() -> None:
    situation = Situation(regurgitations=(ago(40),))
    one = Offer(ago(20), "mouse-weaned", 1, 1)
    two = Offer(ago(10), "mouse-weaned", 1, 1)
    assert only(situation, (one,)).percent == 50
    assert waits(situation, (one, two), DAY, SNAKE) == ()


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
    assert waits(Situation(gravid_since=ago(20), laid=ago(1)), (), DAY, SNAKE) == ()


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
    assert waits(Situation(cooling=span), (), DAY, SNAKE) == ()


def test_blocking_reasons_come_first() -> None:
    found = waits(Situation(gravid_since=ago(20), opaque_since=ago(1)), (), DAY, SNAKE)
    assert [w.code for w in found] == ["opaque", "gravid"]


def test_hatchling_snakes_settle_for_a_shorter_time_than_grown_ones() -> None:
    young = rests_for("snake", "", (Stage.HATCHLING,), RULES)
    (wait,) = waits(Situation(arrived=ago(2)), (), DAY, young)
    assert wait.until == ago(-3) and "hatchling" not in wait.words
    assert wait.basis.source.mark is Mark.COMMON_PRACTICE


def test_a_young_lizard_eats_from_the_first_day_on() -> None:
    assert waits(Situation(arrived=ago(1)), (), DAY, GECKO) == ()
    (wait,) = waits(Situation(arrived=DAY), (), DAY, GECKO)
    assert wait.until == ago(-1)


def test_a_lizard_never_waits_for_its_slough() -> None:
    (told,) = waits(Situation(opaque_since=ago(3)), (), DAY, GECKO)
    assert not told.blocks and "all the same" in told.words
    assert waits(Situation(slough_expected=(DAY, ago(-3))), (), DAY, GECKO) == ()


def test_a_snake_is_fed_from_the_day_after_its_slough() -> None:
    assert only(Situation(shed=DAY)).until == ago(-1)
    assert waits(Situation(shed=ago(1)), (), DAY, SNAKE) == ()


def test_a_gravid_lizard_eats_more_and_a_gravid_snake_less() -> None:
    (lizard,) = waits(Situation(gravid_since=ago(9)), (), DAY, GECKO)
    assert not lizard.blocks and lizard.percent == 100 and "more food and calcium" in lizard.words
    assert only(Situation(gravid_since=ago(9))).percent == 60


@pytest.mark.parametrize("form", ["snake", "lizard", "tortoise", "turtle"])
@pytest.mark.parametrize(
    "stages", [*((s,) for s in Stage), (Stage.SUBADULT, Stage.ADULT), tuple(Stage)]
)
def test_no_rest_of_a_young_one_is_longer_than_of_a_grown_one(form: str, stages: Stages) -> None:
    mine, grown = (rests_for(form, "", s, RULES) for s in (stages, (Stage.ADULT,)))
    for name in ("arrival", "move", "opaque", "slough", "regurgitation"):
        assert getattr(mine, name) <= getattr(grown, name)
    assert mine.retry <= grown.retry


def test_a_grown_ball_python_is_offered_food_again_after_ten_to_twelve_days() -> None:
    """The retry of keepers of this species: common practice, no source."""
    assert rests_for("snake", "Python regius", (Stage.ADULT,), RULES).retry == (10, 12)


@pytest.mark.parametrize(
    ("situation", "until"),
    [
        (Situation(arrived=ago(30)), ago(23)),
        (Situation(arrived=ago(30), moved=ago(10)), ago(3)),
        (Situation(opaque_since=ago(40)), ago(26)),
        (Situation(cooling=(ago(90), ago(20))), ago(13)),
        (Situation(regurgitations=(ago(50),)), ago(36)),
        (Situation(arrived=ago(2)), None),
    ],
)
def test_a_rest_that_is_over_still_tells_the_first_day_of_food(
    situation: Situation, until: date | None
) -> None:
    assert standing(situation, (), DAY, SNAKE)[1] == until


def test_a_snake_that_hatched_here_is_not_fed_before_its_first_shed() -> None:
    young = rests_for("snake", "", (Stage.HATCHLING,), RULES)
    situation = Situation(arrived=ago(10), hatched_here=ago(10))
    (wait,) = waits(situation, (), DAY, young)
    assert (wait.code, wait.until) == ("first-shed", ago(-4)) and wait.blocks
    assert waits(situation, (), ago(-4), young) == ()  # then it is offered food all the same
    assert waits(situation, (Offer(ago(1), "mouse", 1, 1.0),), DAY, young) == ()
    assert waits(situation, (), DAY, GECKO) == ()
