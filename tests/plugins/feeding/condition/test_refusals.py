"""Refusals judged."""

from __future__ import annotations

from datetime import date, timedelta
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st
from msgspec.structs import replace

from warmside.core.values.quantities import Display
from warmside.plugins.feeding.care.diets import Stage
from warmside.plugins.feeding.care.rules import rules_with
from warmside.plugins.feeding.condition.fasting import cost_of
from warmside.plugins.feeding.condition.loss import Loss, loss
from warmside.plugins.feeding.condition.refusals import (
    Case,
    Judgement,
    Level,
    cost_words,
    judge,
    longest_fast,
    refused_this_season,
    streak,
)
from warmside.plugins.feeding.condition.season import season_of
from warmside.plugins.feeding.energy.rates import steady_day
from warmside.plugins.feeding.meals.records import Offer, Weighing
from warmside.plugins.feeding.planning.rests import rests_for
from warmside.plugins.feeding.planning.waits import Situation, waits

DAY = date(2026, 5, 1)
RULES = rules_with({}, Display.METRIC)
SNAKE = rests_for("snake", "", (Stage.ADULT,), RULES)


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
    stage: str | None = "adult",
    **more: Any,
) -> Judgement | None:
    reasons = waits(situation or Situation(), tuple(offers), DAY, SNAKE)
    known = {"weighed": lost.last if lost else None} | more
    return judge(Case(offers, lost, reasons, (7, 14), stage, **known), DAY, RULES)


def test_a_streak_ends_at_the_last_meal_eaten() -> None:
    offers = refused(1, 8) + eaten(15) + refused(30)
    assert [o.day for o in streak(offers)] == [ago(8), ago(1)]


def test_eating_is_nothing_to_judge() -> None:
    assert judged(refused(20) + eaten(3), held()) is None


def test_one_refusal_is_no_finding() -> None:
    assert judged(eaten(30, 20) + refused(5), held()) is None
    assert judged(eaten(30, 20) + refused(5), None) is None


def test_one_refusal_is_none_either_after_long_without_an_offer() -> None:
    """Past the days that go to a vet, but offered once; past twice these days it is looked at."""
    assert judged(eaten(70) + refused(2), held()) is None
    again = judged(eaten(70) + refused(20, 2), held())
    assert again and again.level is Level.SOON
    late = judged(eaten(120) + refused(2), held())
    assert late and late.level is Level.SOON


def test_a_fast_of_half_the_days_to_a_vet_is_a_note() -> None:
    assert judged(eaten(50, 36) + refused(20, 5), held()) is None
    found = judged(eaten(50, 36) + refused(20, 12, 5), held())
    assert found and found.level is Level.NOTE and found.streak == 3
    assert "refused 3 times in a row, last ate 36 days ago" in found.words
    assert "its weight holds" in found.words and 5 in found.basis.events


def test_a_fresh_weighing_is_not_asked_for_again() -> None:
    """Weighed the day before the first refusal, a fortnight ago: that is fresh."""
    weighed = Weighing(ago(14), 1000)
    found = judged(eaten(50, 36) + refused(13, 9, 5), weighed=weighed)
    assert found and "weigh it" not in found.words
    old = judged(eaten(50, 36) + refused(13, 9, 5), weighed=Weighing(ago(60), 1000))
    assert old and "weigh it" in old.words


def test_a_long_fast_without_reason_wants_a_look() -> None:
    found = judged(eaten(80, 70) + refused(60, 40, 10), held())
    assert found and found.level is Level.SOON
    assert "70 days" in found.words
    assert "56 days without food go to a vet" in found.words


def test_its_own_longer_fasts_are_a_comfort_but_not_for_the_young() -> None:
    offers = eaten(300, 190, 70) + refused(60, 40, 10)
    grown = judged(offers, held())
    assert grown and grown.level is Level.NOTE
    young = judged(offers, held(), stage="juvenile")
    assert young and young.level is Level.SOON


def test_the_usual_fast_of_its_species_in_its_season_is_no_finding() -> None:
    """Ball pythons refuse for 2 to 6 months from October to April: common practice, no source."""
    offers, python = eaten(125, 110) + refused(90, 60, 30, 10), season_of("Python regius")
    assert judged(offers, held(), season=python) is None
    assert judged(offers, held(), season=python, stage="juvenile") is not None
    summer = judged(eaten(80) + refused(60, 40, 10), held(), season=None)
    assert summer and summer.level is Level.SOON


def test_the_time_of_an_earlier_year_is_a_reason() -> None:
    assert judged(refused(370) + eaten(330, 80, 50) + refused(40, 10), held()) is None


def test_a_slough_is_a_reason() -> None:
    assert judged(eaten(50, 40) + refused(10, 2), held(), Situation(opaque_since=ago(3))) is None


def test_weight_loss_outweighs_every_reason() -> None:
    situation = Situation(opaque_since=ago(3), gravid_since=ago(30))
    found = judged(eaten(20) + refused(2), held(880), situation)
    assert found and found.level is Level.VET and "needs a vet" in found.words


def test_loss_counts_without_any_refusal_unless_another_plugin_tells_it() -> None:
    found = judged(eaten(5), held(940))
    assert found and found.level is Level.SOON and found.streak == 0
    assert judged(eaten(5), held(940), loss_is_told=True) is None


@pytest.mark.parametrize(("days", "vet"), [(20, "a vet if it has not"), (40, "to a vet now")])
def test_one_that_never_ate_here_is_for_the_breeder_or_a_vet(days: int, vet: str) -> None:
    nine = refused(*range(1, days, max(1, days // 9)))
    found = judged(nine, held(), stage="hatchling", since=ago(days))
    assert found and found.level is Level.SOON
    assert "ask the breeder" in found.words and vet in found.words
    assert "weekly" not in found.words


def test_what_the_fast_costs_is_said_and_more_than_that_wants_a_look() -> None:
    """A year's fast of a snake of 1500 g: what reassures is the range, and that less was seen."""
    warm = steady_day(30)
    scale = [Weighing(ago(105), 1500), Weighing(ago(2), 1440)]
    cost = cost_of(tuple(scale), ago(112), warm)
    offers, python = eaten(126, 112) + refused(60, 30, 10), season_of("Python regius")
    assert cost is not None and cost_words(cost, RULES).endswith("seen 60 g")
    assert judged(offers, held(), season=python, cost=cost) is None
    thin = replace(cost, seen_g=250)
    found = judged(offers, held(), season=python, cost=thin)
    assert found and found.level is Level.SOON and "more than such a fast costs" in found.words


def test_the_days_of_a_winter_cooling_are_no_fast() -> None:
    """Last ate 117 days ago, but it has been warm for 20 days only."""
    offers = eaten(131, 117) + refused(13, 6)
    assert judged(offers, held(), warm_since=ago(20)) is None
    fast = judged(offers, held())
    assert fast and fast.level is Level.SOON


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
    order = [None, Level.NOTE, Level.SOON, Level.VET]
    found = (judged(eaten(20) + refused(2), held(m)) for m in sorted((a, b)))
    worse, milder = (order.index(f.level if f else None) for f in found)
    assert worse >= milder
