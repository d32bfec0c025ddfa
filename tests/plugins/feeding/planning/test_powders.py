"""The powder for the next meal of one animal."""

from __future__ import annotations

from datetime import date, timedelta

from msgspec.structs import replace
from tests.living import staged_by_mass

from warmside.core.values.quantities import Display
from warmside.plugins.feeding.care.rules import rules_with
from warmside.plugins.feeding.care.species import species_rows
from warmside.plugins.feeding.meals.records import Offer, Weighing
from warmside.plugins.feeding.planning.next_meal import plan
from warmside.plugins.feeding.planning.powders import light_words, next_powder
from warmside.plugins.feeding.planning.subject import Subject
from warmside.plugins.feeding.planning.waits import Situation

DAY = date(2026, 5, 1)
RULES = rules_with({}, Display.METRIC)


def of(latin: str, family: str, mass_g: float, **more: bool) -> Subject:
    row, weighed = species_rows()[latin], Weighing(DAY, mass_g)
    life = staged_by_mass(row, weighed, DAY)
    return Subject(row, weighed, family=family, staged=life, **more)


GECKO = of("Eublepharis macularius", "gecko", 60)


def dusted(days: int, powder: str | None, prey: str = "cricket-half") -> Offer:
    return Offer(DAY - timedelta(days=days), prey, 5, 5, dust=powder)


def code(subject: Subject) -> str | None:
    found = next_powder(subject, DAY)
    return found.code if found else None


def test_vitamins_come_when_their_days_have_passed() -> None:
    recent = (dusted(15, "multivitamin"), dusted(6, "calcium-d3"), dusted(3, "calcium"))
    assert code(replace(GECKO, offers=recent)) == "multivitamin"
    assert code(replace(GECKO, offers=(dusted(13, "multivitamin"), *recent[1:]))) == "calcium"


def test_a_gravid_one_gets_calcium_whatever_is_due() -> None:
    gravid = Situation(gravid_since=DAY - timedelta(days=9))
    due = replace(GECKO, offers=(dusted(60, "multivitamin"),))
    assert code(due) == "calcium-d3" and code(replace(due, situation=gravid)) == "calcium"


def test_light_that_is_not_known_is_asked_for_and_lacking_is_told() -> None:
    assert "plugin set feeding uvb" in light_words(GECKO)[0]
    assert light_words(replace(GECKO, uvb=True)) == ()
    dragon = of("Pogona vitticeps", "agama", 400, uvb=False)
    assert "not kept without UVB" in light_words(dragon)[0]


def test_greens_of_a_plant_eater_are_dusted_and_those_of_an_omnivore_are_not() -> None:
    tortoise = plan(of("Testudo hermanni", "tortoise", 800), DAY, RULES)
    assert tortoise.dust and tortoise.dust.code == "calcium"
    dragon = plan(of("Pogona vitticeps", "agama", 400), DAY, RULES)
    assert dragon.fits[0].prey.plant and dragon.dust is None


def test_a_complete_food_and_whole_prey_get_none() -> None:
    """Supplements are contraindicated beside over half a complete food.

    Stahl & Donoghue, Small Animal Clinical Nutrition 5th ed., ch. 71, 2010.
    """
    crested = plan(of("Correlophus ciliatus", "gecko", 42), DAY, RULES)
    assert crested.fits[0].prey.nature == "prepared" and crested.dust is None
    assert plan(of("Python regius", "python", 900), DAY, RULES).dust is None
