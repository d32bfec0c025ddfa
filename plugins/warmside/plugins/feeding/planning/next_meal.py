"""The plan of one animal: when the next meal is due, how big, of what, and why.

It rests on the last weight and recent offers alone, so its cost does not grow with the years.
"""

from __future__ import annotations

from datetime import date

from msgspec import Struct

from warmside.api import Basis, Estimate, Unit
from warmside.plugins.feeding.care.rules import Rules
from warmside.plugins.feeding.energy.rates import Span
from warmside.plugins.feeding.meals.records import last_meal
from warmside.plugins.feeding.planning.mass import NO_WEIGHT, MassNow
from warmside.plugins.feeding.planning.portion import (
    Fit,
    fits,
    meal_range,
    why_nothing_fits,
    width_words,
)
from warmside.plugins.feeding.planning.powders import light_words, next_powder, powders_of
from warmside.plugins.feeding.planning.subject import Subject
from warmside.plugins.feeding.planning.waits import Wait
from warmside.plugins.feeding.planning.window import Window, interval_of, window
from warmside.plugins.feeding.prey.classes import known_prey, prey_named
from warmside.plugins.feeding.prey.dusting import Dust, DustPlan


class Plan(Struct, frozen=True):
    """The next meal of one part of the diet. `due_from` and `due_by` are None while a wait is open.

    `meal` (g) is None without a weight, a share of body mass or a diet; `fits` best first.
    `dust` is the powder for it, by the plan `dusting`.
    """

    due_from: date | None
    due_by: date | None
    interval: Estimate
    mass: MassNow | None
    meal: Estimate | None
    fits: tuple[Fit, ...]
    dust: Dust | None
    dusting: DustPlan | None
    waits: tuple[Wait, ...]
    words: tuple[str, ...]

    def is_due(self, day: date) -> bool:
        """The animal may be fed on that day."""
        return self.due_from is not None and self.due_from <= day


def due(subject: Subject, day: date, rules: Rules) -> Window:
    """Only when the next meal is due, as in `plan`: for a whole round, where few are."""
    mass = subject.mass(day, rules)
    interval = interval_of(subject, mass.stage if mass else None)
    return window(subject, interval, subject.waits(day, rules), day, rules)


def plan(subject: Subject, day: date, rules: Rules) -> Plan:
    """The plan as seen on a day."""
    reasons, mass = subject.waits(day, rules), subject.mass(day, rules)
    interval = interval_of(subject, mass.stage if mass else None)
    days = window(subject, interval, reasons, day, rules)
    if mass is None or mass.stage not in subject.species.meal_percent:
        said = _said(subject, reasons, _unsized(subject, mass))
        return Plan(*days, interval, mass, None, (), None, None, reasons, said)
    return _with_meal(subject, mass, interval, days, reasons, rules, day)


def meal_percent(reasons: tuple[Wait, ...]) -> float:
    """The size of the meal in percent of the usual: the smallest that a reason asks for."""
    return min((w.percent for w in reasons), default=100.0)


def _with_meal(
    subject: Subject,
    mass: MassNow,
    interval: Estimate,
    days: Window,
    reasons: tuple[Wait, ...],
    rules: Rules,
    day: date,
) -> Plan:
    species = subject.species
    size = meal_range(mass.mass, species, meal_percent(reasons))
    meal = size.low, size.high
    found = fits(meal, species, mass.middle, rules, subject.girth_mm, usual_prey(subject))
    said = _said(subject, reasons, mass.words(rules), *_about(found, meal, subject, rules))
    insects = bool(found) and found[0].prey.insect
    dusting = powders_of(subject) if insects else None
    dust = next_powder(subject, max(day, days[0] or day)) if insects else None
    return Plan(*days, interval, mass, size, found, dust, dusting, reasons, said)


def _unsized(subject: Subject, mass: MassNow | None) -> str:
    """Why no size can be said, or how much by eye."""
    part = subject.species.part
    if mass is None and part.percent:
        return NO_WEIGHT
    return f"{part.name}: {part.portion}" if part.portion else ""


def sized(
    subject: Subject, mass_g: float, percent: float, rules: Rules, usual: str | None
) -> tuple[Fit, ...]:
    """The prey that makes up a meal at a mass in g, at `percent` of the usual size."""
    mass = Estimate(mass_g, mass_g, mass_g, Unit.MASS, Basis("expected"))
    if subject.species.stage(mass_g) not in subject.species.meal_percent:
        return ()
    size = meal_range(mass, subject.species, percent)
    meal = size.low, size.high
    return fits(meal, subject.species, mass_g, rules, subject.girth_mm, usual)


def usual_prey(subject: Subject) -> str | None:
    """The class of the part's food that was eaten last."""
    foods = subject.species.part.classes()
    eaten = last_meal(tuple(o for o in subject.offers if known_prey(o.prey) in foods))
    return prey_named(eaten.prey).code if eaten else None


def _about(found: tuple[Fit, ...], meal: Span, subject: Subject, rules: Rules) -> tuple[str, ...]:
    if not found:
        return (why_nothing_fits(meal, subject.species, subject.girth_mm, rules),)
    if found[0].prey.weighed:
        return ()
    if found[0].prey.insect:
        return ("insects no longer than the space between the animal's eyes", *light_words(subject))
    return (width_words(found[0], subject.girth_mm, rules),)


def _said(subject: Subject, reasons: tuple[Wait, ...], *more: str) -> tuple[str, ...]:
    return tuple(w for w in (*(r.words for r in reasons), *more, subject.species.words) if w)
