"""The meals to come."""

from __future__ import annotations

from datetime import date, timedelta

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from tests.living import staged_by_mass

from warmside.core.values.basis import Basis, Estimate
from warmside.core.values.errors import BadInput
from warmside.core.values.quantities import Display
from warmside.core.values.units import Unit
from warmside.plugins.feeding.care.rules import rules_with
from warmside.plugins.feeding.care.species import species_rows
from warmside.plugins.feeding.meals.records import Offer, Weighing
from warmside.plugins.feeding.planning.forecast import forecast
from warmside.plugins.feeding.planning.next_meal import plan
from warmside.plugins.feeding.planning.subject import Subject
from warmside.plugins.feeding.planning.waits import Situation
from warmside.plugins.feeding.prey.classes import prey_classes

DAY = date(2026, 5, 1)
WEEKS_2 = timedelta(weeks=2)
RULES = rules_with({}, Display.METRIC)
KING = species_rows()["Lampropeltis californiae"]
names = st.sampled_from(list(species_rows()))


def subject(mass_g: float, *offers: Offer, situation: Situation | None = None) -> Subject:
    weighed = Weighing(DAY, mass_g)
    life = staged_by_mass(KING, weighed, DAY)
    return Subject(KING, weighed, offers, situation=situation or Situation(), staged=life)


def test_meals_come_at_the_middle_of_the_interval() -> None:
    eaten = Offer(DAY, "rat-small", 1, 1)
    days = [m.day for m in forecast("Umber", subject(700, eaten), DAY, 6, RULES).meals]
    assert days[0] == DAY + timedelta(days=10)
    assert 3 <= len(days) <= 6 and days[-1] < DAY + timedelta(weeks=6)


def test_sizes_move_up_as_a_young_animal_grows() -> None:
    found = forecast("Pip", subject(12), DAY, 52, RULES)
    sizes = [prey_classes()[m.prey].typical_g * m.count for m in found.meals]
    assert sizes == sorted(sizes) and sizes[0] < sizes[-1]
    assert "then" in found.words and "from 12 g" in found.words


def test_another_plugins_growth_is_followed() -> None:
    def shrinking(day: date) -> Estimate:
        mass = 100.0 - (day - DAY).days / 2
        return Estimate(mass, mass, mass, Unit.MASS, Basis("told"))

    grows = forecast("Pip", subject(100), DAY, 20, RULES).meals[-1]
    shrinks = forecast("Pip", subject(100), DAY, 20, RULES, shrinking).meals[-1]
    assert prey_classes()[shrinks.prey].typical_g < prey_classes()[grows.prey].typical_g


def test_where_another_plugin_sees_no_further_the_animal_grows_on_from_what_it_said() -> None:
    def two_weeks(day: date) -> Estimate | None:
        return Estimate(30, 30, 30, Unit.MASS, Basis("told")) if day < DAY + WEEKS_2 else None

    def level(day: date) -> Estimate:
        return Estimate(30, 30, 30, Unit.MASS, Basis("told"))

    told = [forecast("Pip", subject(12), DAY, 104, RULES, f).meals for f in (two_weeks, level)]
    told.append(forecast("Pip", subject(12), DAY, 104, RULES).meals)
    grown, held, alone = (prey_classes()[m[-1].prey].typical_g * m[-1].count for m in told)
    assert grown > held and grown > alone


def test_an_open_wait_plans_no_meal_and_says_why() -> None:
    cooled = subject(700, situation=Situation(cooling=(DAY - timedelta(days=9), None)))
    found = forecast("Umber", cooled, DAY, 6, RULES)
    assert found.meals == () and "cooled for winter" in found.words


def test_the_first_meals_after_a_regurgitation_are_small() -> None:
    ill = Situation(regurgitations=(DAY - timedelta(days=5),))
    sizes = [
        prey_classes()[m.prey].typical_g * m.count
        for m in forecast("Umber", subject(700, situation=ill), DAY, 10, RULES).meals
    ]
    assert max(sizes[:2]) < min(sizes[2:])


def test_without_a_weight_no_meal_can_be_planned() -> None:
    found = forecast("Umber", Subject(KING), DAY, 6, RULES)
    assert found.meals == () and "weigh it first" in found.words


def test_what_is_fed_by_eye_is_told_by_how_often() -> None:
    bowl = Subject(species_rows()["Testudo hermanni"], Weighing(DAY, 800))
    found = forecast("Herb", bowl, DAY, 2, RULES)
    assert (found.meals, found.times) == ((), 10)
    often, much = "weeds and leaves every 1 to 2 days", "a bowl, as much as is eaten in a day"
    assert found.words == f"{often}: 10 times, {much}"


def test_a_meal_after_the_time_is_named() -> None:
    eaten = Offer(DAY, "rat-small", 1, 1)
    found = forecast("Umber", subject(700, eaten), DAY, 1, RULES)
    said = "the next meal is due after this time, from 2026-05-11"
    assert (found.times, found.words) == (0, said)
    assert forecast("Umber", Subject(KING), DAY, 6, RULES).times is None


def test_weeks_must_be_at_least_one() -> None:
    with pytest.raises(BadInput, match="at least 1"):
        forecast("Umber", subject(700), DAY, 0, RULES)


@given(names, st.floats(2, 3000), st.sampled_from([1.0, 1.05, 1.4]))
@settings(max_examples=60, deadline=None)
def test_an_order_begins_with_the_meal_that_the_plan_says(
    name: str, mass_g: float, wide: float
) -> None:
    """Also where the mass of the day is but a range, of which both take the middle."""
    told = Estimate(mass_g, mass_g / wide, mass_g * wide, Unit.MASS, Basis("told"))
    weighed, species = Weighing(DAY - timedelta(days=9), mass_g), species_rows()[name]
    life = staged_by_mass(species, weighed, DAY)
    now = Subject(species, weighed, expected=told, staged=life)
    first = plan(now, DAY, RULES).fits[:1]
    meals = forecast("x", now, DAY, 1, RULES, lambda day: told).meals[:1]
    assert [(m.prey, m.count) for m in meals] == [(f.prey.code, f.count) for f in first]


@given(names, st.floats(1, 3000), st.integers(1, 20))
@settings(max_examples=60, deadline=None)
def test_meals_are_in_order_and_within_the_weeks(name: str, mass_g: float, weeks: int) -> None:
    species = species_rows()[name]
    meals = forecast("x", Subject(species, Weighing(DAY, mass_g)), DAY, weeks, RULES).meals
    days = [m.day for m in meals]
    assert days == sorted(set(days))
    assert all(DAY <= day < DAY + timedelta(weeks=weeks) for day in days)
    assert all(m.count >= 1 for m in meals)
