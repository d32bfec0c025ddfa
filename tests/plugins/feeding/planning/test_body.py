"""What the condition of the body means for its meals."""

from __future__ import annotations

from datetime import date, timedelta

import pytest
from tests.living import staged_by_mass

from warmside.core.values.quantities import Display
from warmside.plugins.feeding.care.rules import rules_with
from warmside.plugins.feeding.care.species import species_rows
from warmside.plugins.feeding.meals.records import Offer, Weighing
from warmside.plugins.feeding.planning.body import Body
from warmside.plugins.feeding.planning.next_meal import Plan, plan
from warmside.plugins.feeding.planning.subject import Subject

DAY = date(2026, 5, 1)
RULES = rules_with({}, Display.METRIC)
CORN = species_rows()["Pantherophis guttatus"]
USUAL = (300.0, 900.0)


def corn(body: Body, mass_g: float = 1200) -> Plan:
    eaten = Offer(DAY - timedelta(days=12), "rat-small", 1, 1)
    weighed = Weighing(DAY, mass_g)
    life = staged_by_mass(CORN, weighed, DAY)
    return plan(Subject(CORN, weighed, (eaten,), body=body, staged=life), DAY, RULES)


@pytest.mark.parametrize(
    ("body", "said"),
    [(Body(4, None, USUAL), "condition 4 of 5"), (Body(None, 900, USUAL), "over its target")],
)
def test_a_fat_animal_gets_no_larger_meals_and_waits_longer(body: Body, said: str) -> None:
    """A custom: usual corn snakes weigh 300 to 900 g and eat every 10 to 14 days."""
    fat, slim = corn(body), corn(Body(3, None, USUAL), 900)
    assert fat.meal and slim.meal and fat.meal.high == slim.meal.high
    assert (fat.interval.low, fat.interval.high) == (14, 21)
    assert slim.is_due(DAY) and not fat.is_due(DAY)
    assert any(said in words and "no larger meals" in words for words in fat.words)


def test_a_good_score_and_a_target_not_passed_change_nothing() -> None:
    assert corn(Body(3, 1250, USUAL)).meal == corn(Body()).meal
    assert corn(Body(3, 1250, USUAL)).is_due(DAY)


def test_a_thin_one_goes_to_a_vet_before_more_food() -> None:
    assert any("thin; a vet before" in words for words in corn(Body(2, None, USUAL)).words)


def test_a_heavy_one_that_was_not_scored_is_to_be_looked_at() -> None:
    words = " ".join(corn(Body(None, None, USUAL)).words)
    assert "heavier than usual for its kind (300 to 900 g)" in words
    assert "heavier" not in " ".join(corn(Body(3, None, USUAL)).words)
