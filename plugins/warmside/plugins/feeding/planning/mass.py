"""The mass to plan a meal by: the last weight, widened by its age, or what another plugin says."""

from __future__ import annotations

import math
from datetime import date

from msgspec import Struct

from warmside.api import OWN_RECORDS, BadInput, Basis, Estimate, Unit, counted
from warmside.plugins.feeding.care.diets import Stage
from warmside.plugins.feeding.care.rules import Rules
from warmside.plugins.feeding.care.species import Species
from warmside.plugins.feeding.care.stages import Stages, only
from warmside.plugins.feeding.energy.rates import MOST_G, check_mass, middle_mass
from warmside.plugins.feeding.meals.records import Weighing

NO_WEIGHT = (
    "no weight on record: how often it eats can be said for its species, "
    "the size of a meal and the prey cannot; weigh it first"
)


class MassNow(Struct, frozen=True):
    """The mass in g on a day, the possible life stages, the last weight and its age in days.

    It is stale where it is old.
    """

    mass: Estimate
    stages: Stages
    last: Weighing
    age_days: int
    stale: bool

    @property
    def stage(self) -> Stage | None:
        """The life stage; None where several are possible."""
        return only(self.stages)

    @property
    def middle(self) -> float:
        """The mass to reckon with, g."""
        return middle_mass(self.mass)

    def words(self, rules: Rules) -> str:
        """When it was weighed, and what is reckoned with where that is long ago."""
        weighed = rules.grams(self.last.mass_g, digits=None)
        ago = {0: "today", 1: "yesterday"}.get(self.age_days, f"{self.age_days} days ago")
        said = f"weighed {weighed} on {self.last.day.isoformat()}, {ago}"
        if not self.stale:
            return said
        low, high = rules.grams(self.mass.low), rules.grams(self.mass.high)
        return f"{said}: stale, so reckoned with {low} to {high}; weigh it again"


def mass_now(
    last: Weighing | None,
    day: date,
    species: Species,
    rules: Rules,
    expected: Estimate | None = None,
    stages: Stages = tuple(Stage),
) -> MassNow:
    """The mass on a day: `expected` where another plugin answers, else the last weight.

    A stale weight is widened: upwards by the growth its species may show, downwards by a slow
    unseen loss. BadInput without any weight.
    """
    if last is None:
        raise BadInput(NO_WEIGHT)
    check_mass(last.mass_g)
    age = max(0, (day - last.day).days)
    stale = age > rules.fresh_days
    if expected is not None:
        check_mass(middle_mass(expected))
        return MassNow(expected, stages, last, age, stale)
    mass = _widened(last, age, species, rules) if stale else _as_weighed(last, age)
    return MassNow(mass, stages, last, age, stale)


def grown(mass_g: float, weeks: float, species: Species, share: float = 0.5) -> float:
    """The mass after some weeks of growth at `share` of the way from slow to fast.

    It grows through the stages, each at its own rate, so a heavier animal stays the heavier. Where
    nothing is known of its kind no growth is reckoned with: a meal too small is the lesser harm.
    """
    mass, left = mass_g, weeks
    tops = (*(start for _, start in species.starts_g[1:]), math.inf)
    if not species.has_stages:
        return mass_g
    for (stage, _), top in zip(species.starts_g, tops, strict=True):
        if mass >= top or left <= 0:
            continue
        slow, fast = species.growth[stage]
        rate = math.log1p((slow + share * (fast - slow)) / 100.0)
        needed = math.log(top / mass) / rate if rate > 0 and top < math.inf else math.inf
        spent = min(left, needed)
        mass, left = (top if spent == needed else mass * math.exp(rate * spent)), left - spent
    return min(mass, MOST_G)


def _as_weighed(last: Weighing, age: int) -> Estimate:
    basis = Basis(f"last weight, {counted(age, 'day')} old", OWN_RECORDS, _ids(last))
    return Estimate(last.mass_g, last.mass_g, last.mass_g, Unit.MASS, basis)


def _widened(last: Weighing, age: int, species: Species, rules: Rules) -> Estimate:
    weeks = age / 7.0
    kept = math.exp(-rules.possible_loss_percent_per_week / 100.0 * weeks)
    basis = Basis(
        f"last weight, {counted(age, 'day')} old, widened for its age", species.source, _ids(last)
    )
    high = grown(last.mass_g, weeks, species, share=1.0)
    return Estimate(last.mass_g, last.mass_g * max(kept, 0.5), high, Unit.MASS, basis)


def _ids(last: Weighing) -> tuple[int, ...]:
    return (last.event,) if last.event else ()
