"""When an animal is to be weighed: by its life stage, and sooner by what its weighings say."""

from __future__ import annotations

from datetime import date

import pytest

from warmside.api import Animal, LifeStage, shipped_species_named
from warmside.core.record.species.life_stage import Life
from warmside.core.record.species.staged import Staged
from warmside.core.values.display import Display
from warmside.plugins.weight.course.limits import DEFAULTS as LIMITS
from warmside.plugins.weight.course.rhythm import LastWeighed, due, due_day, interval
from warmside.plugins.weight.course.series import weighings
from warmside.plugins.weight.course.sign import Course
from warmside.plugins.weight.loss.judging import lighter_unexplained
from warmside.plugins.weight.settings import SETTINGS

DEFAULTS = {s.name: float(s.default) for s in SETTINGS}
DAY = float(date(2026, 1, 1).toordinal())


@pytest.mark.parametrize(
    ("possible", "cooled", "days", "whom"),
    [
        ([LifeStage.HATCHLING], False, 7, "as a hatchling"),
        ([LifeStage.JUVENILE], False, 14, "as a juvenile"),
        ([LifeStage.SUBADULT], False, 14, "as a subadult"),
        ([LifeStage.ADULT], False, 28, "as an adult"),
        (list(LifeStage), False, 28, "as its life stage is not known"),
        ([LifeStage.ADULT], True, 14, "in winter cooling"),
    ],
)
def test_the_young_are_weighed_more_often(
    possible: list[LifeStage], cooled: bool, days: int, whom: str
) -> None:
    """And the cooled ones, since they eat nothing (common practice, no source)."""
    assert interval(possible, cooled, DEFAULTS) == (days, whom)


def test_due_at_once_where_it_was_never_weighed() -> None:
    """Since it came."""
    assert due_day(7, None, date(2026, 3, 1)) == date(2026, 3, 1)
    assert due_day(7, date(2026, 3, 1), date(2020, 1, 1)) == date(2026, 3, 8)


def _course(last_g: float, day: float, *, meals: list[float], refused: list[float]) -> Course:
    """A grown snake of 700 g weighed every four weeks, then once more."""
    rows = [(k, DAY - 28 * (6 - k), 700.0 + k % 2) for k in range(7)]
    those = weighings([*rows, (7, DAY + day, last_g)])
    eaten = [DAY + d for d in (-42, -28, -14, 0, *meals)]
    return Course(those, LifeStage.ADULT, meals=eaten, refused=[DAY + d for d in refused])


def _due(course: Course, on: float) -> tuple[int, str] | None:
    """Every how many days it is to be weighed, and for whom, if it is due on that day."""
    species = shipped_species_named("corn snake")
    assert species
    animal = Animal(1, "EMB", "Ember", species, "female", "", None, "", "")
    life = Life(species.scientific, None, (), (3000.0, None), None, Display.METRIC)
    staged = Staged(LifeStage.ADULT, (LifeStage.ADULT,), life)
    last = date.fromordinal(int(course.weighings.days[-1]))
    it = LastWeighed(animal, date(2020, 1, 1), staged, last, 7, course=course)
    found = due(it, DEFAULTS, LIMITS, date.fromordinal(int(DAY + on)))
    return (found.every_days, found.whom) if found else None


def test_a_grown_one_that_weighs_what_it_did_is_weighed_every_four_weeks() -> None:
    """A single refusal changes nothing."""
    steady = _course(699, 20, meals=[14], refused=[])
    assert (_due(steady, 47), _due(steady, 48)) == (None, (28, "as an adult"))


def test_one_below_its_level_by_more_than_a_little_is_weighed_again_in_a_week() -> None:
    """By 0.75 %, before there is anything to tell."""
    low = _course(694, 20, meals=[14], refused=[])
    assert lighter_unexplained(low)
    assert (_due(low, 26), _due(low, 27)) == (None, (7, "as it weighed less than it usually does"))


def test_a_fast_that_costs_no_more_than_it_may_is_weighed_every_two_weeks() -> None:
    """Python fasts of 30 days cost 5 to 6 % at most; also until the first weighing after it."""
    fasting = _course(685, 30, meals=[], refused=[14, 28])
    assert not lighter_unexplained(fasting)
    assert _due(fasting, 44) == (14, "during its fast")
    over = _course(685, 30, meals=[35], refused=[14, 28])
    assert (_due(over, 43), _due(over, 44)) == (None, (14, "after its fast"))


def test_one_that_loses_more_than_its_fast_costs_is_weighed_again_in_a_week() -> None:
    """Two meals refused about a shed explain no loss of 7 %, though it eats again."""
    for meals in ([], [35.0]):
        low = _course(650, 30, meals=meals, refused=[14, 28])
        assert lighter_unexplained(low)
        assert _due(low, 37) == (7, "as it weighed less than it usually does")
