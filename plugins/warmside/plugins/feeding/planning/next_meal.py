"""The plan of one animal: when the next meal is due, how big, of what, and why.

It rests on the last weight and recent offers alone, so its cost does not grow with the years.
"""

from __future__ import annotations

import math
from dataclasses import dataclass, field
from datetime import date, timedelta

from warmside.api import Basis, Estimate, Unit, Valued
from warmside.plugins.feeding.care.rules import Rules
from warmside.plugins.feeding.care.species import Species
from warmside.plugins.feeding.energy.rates import Span
from warmside.plugins.feeding.meals.records import Offer, Weighing, last_meal, last_refusal
from warmside.plugins.feeding.planning.mass import NO_WEIGHT, MassNow, mass_now
from warmside.plugins.feeding.planning.portion import (
    Fit,
    fits,
    meal_range,
    parts,
    why_nothing_fits,
    width_words,
)
from warmside.plugins.feeding.planning.waits import Situation, Wait, waits
from warmside.plugins.feeding.prey.classes import known_prey, prey_named
from warmside.plugins.feeding.prey.dusting import Dust, next_dust


@dataclass(frozen=True, slots=True)
class Subject:
    """What is known of one animal. `offers` are the recent ones, in any order.

    `expected` is the mass that another plugin expects; `girth_mm` the widest girth; `retry` after
    how many days it is offered again once it refused, None for the general rule.
    """

    species: Species
    weighing: Weighing | None = None
    offers: tuple[Offer, ...] = ()
    expected: Estimate | None = None
    girth_mm: float | None = None
    situation: Situation = field(default_factory=Situation)
    retry: Valued | None = None

    def retry_days(self, rules: Rules) -> float:
        """Days from a refusal to the next offer, as set most narrowly."""
        return float(self.retry.value) if self.retry else rules.retry_days


@dataclass(frozen=True, slots=True)
class Plan:
    """The next meal. `due_from` and `due_by` are None while a wait is open.

    `meal` (g), `animal_g` and `plants_g` are None without a weight; `fits` best first.
    """

    due_from: date | None
    due_by: date | None
    interval: Estimate
    mass: MassNow | None
    meal: Estimate | None
    animal_g: Span | None
    plants_g: Span | None
    fits: tuple[Fit, ...]
    dust: Dust | None
    waits: tuple[Wait, ...]
    words: tuple[str, ...]

    def is_due(self, day: date) -> bool:
        """The animal may be fed on that day."""
        return self.due_from is not None and self.due_from <= day


def due(subject: Subject, day: date, rules: Rules) -> tuple[date | None, date | None]:
    """Only when the next meal is due, as in `plan`: for a whole round, where few are."""
    interval = interval_of(subject, _mass(subject, day, rules))
    reasons = waits(subject.situation, subject.offers, day, rules)
    return _due(subject, interval, reasons, day, rules)


def plan(subject: Subject, day: date, rules: Rules) -> Plan:
    """The plan as seen on a day."""
    reasons = waits(subject.situation, subject.offers, day, rules)
    mass = _mass(subject, day, rules)
    interval = interval_of(subject, mass)
    due = _due(subject, interval, reasons, day, rules)
    if mass is None:
        said = _said(subject, reasons, NO_WEIGHT)
        return Plan(*due, interval, None, None, None, None, (), None, reasons, said)
    return _with_meal(subject, mass, interval, due, reasons, rules)


def interval_of(subject: Subject, mass: MassNow | None) -> Estimate:
    """The interval window in days, by stage; over all stages where the weight is unknown."""
    low, high = subject.species.interval(mass.stage if mass else None)
    days = f"{low:g}" if low == high else f"{low:g} to {high:g}"
    stage = f"as {mass.stage}" if mass else "over all stages"
    basis = Basis(f"every {days} days {stage}", subject.species.interval_source)
    return Estimate(None, low, high, Unit.DAYS, basis)


def due_window(
    offers: tuple[Offer, ...],
    interval: Span,
    reasons: tuple[Wait, ...],
    day: date,
    retry_days: float,
) -> tuple[date | None, date | None]:
    """The first and the last day for the next meal; (None, None) while a wait is open.

    From the last meal eaten by the interval; after a refusal not before the days of a retry,
    nor later than after the usual interval.
    """
    eaten, refused = last_meal(offers), last_refusal(offers)
    earliest = eaten.day + timedelta(days=math.ceil(interval[0])) if eaten else day
    latest = eaten.day + timedelta(days=math.floor(interval[1])) if eaten else day
    if refused and (eaten is None or refused.day >= eaten.day):
        again = refused.day + timedelta(days=round(min(retry_days, interval[0])))
        earliest = max(earliest, again) if eaten else again
    blocking = [w for w in reasons if w.blocks]
    if any(w.until is None for w in blocking):
        return None, None
    ends = ((w.until, w.forecast) for w in blocking if w.until)
    earliest = max([earliest, *(min(end, latest) if told else end for end, told in ends)])
    return earliest, max(latest, earliest)


def _due(
    subject: Subject, interval: Estimate, reasons: tuple[Wait, ...], day: date, rules: Rules
) -> tuple[date | None, date | None]:
    days = interval.low, interval.high
    return due_window(subject.offers, days, reasons, day, subject.retry_days(rules))


def meal_percent(reasons: tuple[Wait, ...]) -> float:
    """The size of the meal in percent of the usual: the smallest that a reason asks for."""
    return min((w.percent for w in reasons), default=100.0)


def _mass(subject: Subject, day: date, rules: Rules) -> MassNow | None:
    if subject.weighing is None:
        return None
    return mass_now(subject.weighing, day, subject.species, rules, subject.expected)


def _with_meal(
    subject: Subject,
    mass: MassNow,
    interval: Estimate,
    due: tuple[date | None, date | None],
    reasons: tuple[Wait, ...],
    rules: Rules,
) -> Plan:
    species = subject.species
    size = meal_range(mass.mass, species, meal_percent(reasons))
    animal, plants = parts(size, mass.mass, species)
    usual = usual_prey(subject.offers)
    found = fits(animal, species, mass.middle, rules, subject.girth_mm, usual)
    said = _said(subject, reasons, mass.words(rules), *_about(found, animal, subject, rules))
    plants_g = plants if species.plants else None
    dust = next_powder(subject.offers) if found and found[0].prey.insect else None
    return Plan(*due, interval, mass, size, animal, plants_g, found, dust, reasons, said)


def sized(
    subject: Subject, mass_g: float, percent: float, rules: Rules, usual: str | None
) -> tuple[Fit, ...]:
    """The prey that makes up a meal at a mass in g, at `percent` of the usual size."""
    mass = Estimate(mass_g, mass_g, mass_g, Unit.MASS, Basis("expected"))
    animal, _ = parts(meal_range(mass, subject.species, percent), mass, subject.species)
    return fits(animal, subject.species, mass_g, rules, subject.girth_mm, usual)


def usual_prey(offers: tuple[Offer, ...]) -> str | None:
    """The prey class eaten last, plants apart."""
    animal = tuple(o for o in offers if (p := known_prey(o.prey)) and not p.plant)
    eaten = last_meal(animal)
    return prey_named(eaten.prey).code if eaten else None


def next_powder(offers: tuple[Offer, ...]) -> Dust:
    """The powder for the next meal of insects, by the rota."""
    eaten = [o for o in offers if not o.refused]
    insects = [o for o in eaten if (p := known_prey(o.prey)) and p.insect]
    return next_dust([o.dust for o in sorted(insects, key=lambda o: o.day)])


def _about(found: tuple[Fit, ...], animal: Span, subject: Subject, rules: Rules) -> tuple[str, ...]:
    if not found:
        return (why_nothing_fits(animal, subject.species, subject.girth_mm, rules),)
    if found[0].prey.insect:
        return ("insects no longer than the space between the animal's eyes",)
    return (width_words(found[0], subject.girth_mm, rules),)


def _said(subject: Subject, reasons: tuple[Wait, ...], *more: str) -> tuple[str, ...]:
    return tuple(w for w in (*(r.words for r in reasons), *more, subject.species.words) if w)
