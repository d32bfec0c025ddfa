"""Refusals judged."""

from __future__ import annotations

from datetime import date, timedelta

from hypothesis import given
from hypothesis import strategies as st

from warmside.core.values.quantities import Display
from warmside.plugins.feeding.care.rules import rules_with
from warmside.plugins.feeding.care.species import Stage
from warmside.plugins.feeding.condition.loss import Loss, loss
from warmside.plugins.feeding.condition.refusals import (
    Case,
    Judgement,
    Level,
    judge,
    longest_fast,
    refused_this_season,
    streak,
)
from warmside.plugins.feeding.meals.records import Offer, Weighing
from warmside.plugins.feeding.planning.rests import rests_for
from warmside.plugins.feeding.planning.waits import Situation, waits

DAY = date(2026, 5, 1)
RULES = rules_with({}, Display.METRIC)
SNAKE = rests_for("snake", "", "adult", RULES)


def ago(days: int) -> date:
    return DAY - timedelta(days=days)


def eaten(*days: int) -> list[Offer]:
    return [Offer(ago(d), "rat-small", 1, 1, event=d) for d in days]


def refused(*days: int) -> list[Offer]:
    return [Offer(ago(d), "rat-small", 1, 0, event=d) for d in days]


def held(mass_g: float = 1000) -> Loss | None:
    return loss([Weighing(ago(60), 1000), Weighing(ago(1), mass_g)], DAY, RULES)


def judged(
    offers: list[Offer],
    lost: Loss | None = None,
    situation: Situation | None = None,
    stage: Stage | None = Stage.ADULT,
) -> Judgement | None:
    reasons = waits(situation or Situation(), tuple(offers), DAY, SNAKE)
    return judge(Case(offers, lost, reasons, (7, 14), stage), DAY, RULES)


def test_a_streak_ends_at_the_last_meal_eaten() -> None:
    offers = refused(1, 8) + eaten(15) + refused(30)
    assert [o.day for o in streak(offers)] == [ago(8), ago(1)]


def test_eating_is_nothing_to_judge() -> None:
    assert judged(refused(20) + eaten(3), held()) is None


def test_a_refusal_with_held_weight_is_a_note() -> None:
    found = judged(eaten(30, 20) + refused(5), held())
    assert found and found.level is Level.NOTE and found.streak == 1
    assert "refused once, last ate 20 days ago" in found.words and "weight holds" in found.words
    assert 5 in found.basis.events


def test_a_long_fast_without_reason_wants_a_look() -> None:
    found = judged(eaten(80, 70) + refused(60, 40, 10), held())
    assert found and found.level is Level.SOON and found.fasting_days == 70


def test_its_own_longer_fasts_make_it_a_note() -> None:
    found = judged(eaten(300, 190, 70) + refused(60, 40, 10), held())
    assert found and found.level is Level.NOTE and found.longest_own_fast_days == 120


def test_own_fasts_are_no_comfort_for_a_hatchling() -> None:
    found = judged(eaten(300, 190, 70) + refused(60, 40, 10), held(), stage=Stage.HATCHLING)
    assert found and found.level is Level.SOON


def test_the_season_of_an_earlier_year_is_a_reason() -> None:
    found = judged(refused(370) + eaten(330, 80, 70) + refused(60, 10), held())
    assert found and found.level is Level.NOTE and "earlier year" in found.words


def test_the_slough_is_a_reason() -> None:
    situation = Situation(opaque_since=ago(3))
    found = judged(eaten(80, 70) + refused(10, 2), held(), situation)
    assert found and found.level is Level.NOTE and "opaque" in found.words


def test_a_long_fast_without_a_weight_wants_a_look_whatever_the_reason() -> None:
    situation = Situation(opaque_since=ago(3))
    found = judged(eaten(80, 70) + refused(10, 2), None, situation)
    assert found and found.level is Level.SOON


def test_a_short_streak_without_a_weight_asks_for_one() -> None:
    found = judged(eaten(20) + refused(2), None)
    assert found and found.level is Level.NOTE and "weigh it" in found.words


def test_weight_loss_outweighs_every_reason() -> None:
    situation = Situation(opaque_since=ago(3), gravid_since=ago(30))
    found = judged(eaten(20) + refused(2), held(880), situation)
    assert found and found.level is Level.VET and "needs a vet" in found.words


def test_loss_counts_without_any_refusal() -> None:
    found = judged(eaten(5), held(940))
    assert found and found.level is Level.SOON and found.streak == 0


def test_a_hatchling_that_never_ate_wants_a_look() -> None:
    found = judged(refused(20, 13, 6), None, stage=Stage.HATCHLING)
    assert found and found.level is Level.SOON and found.fasting_days is None


def test_repeated_regurgitation_goes_to_a_vet() -> None:
    situation = Situation(regurgitations=(ago(30), ago(10)))
    found = judged(eaten(40) + refused(2), held(), situation)
    assert found and found.level is Level.VET


def test_the_longest_fast_needs_two_meals() -> None:
    assert longest_fast(eaten(5)) is None
    assert longest_fast(eaten(50, 5, 20)) == 30


def test_the_season_is_a_month_either_way() -> None:
    assert refused_this_season(refused(365 + 25), DAY)
    assert not refused_this_season(refused(365 + 60), DAY)
    assert not refused_this_season(refused(10), DAY)


@given(st.floats(500, 1000), st.floats(500, 1000))
def test_more_loss_is_never_judged_milder(a: float, b: float) -> None:
    order = [Level.NOTE, Level.SOON, Level.VET]
    worse, milder = (judged(eaten(20) + refused(2), held(m)) for m in sorted((a, b)))
    assert worse and milder
    assert order.index(worse.level) >= order.index(milder.level)
