"""The plan of one animal: when the next meal is due, how big, of what, and why.

It rests on the last weight and recent offers alone, so its cost does not grow with the years.
"""

from __future__ import annotations

from datetime import date

from msgspec import Struct
from msgspec.structs import replace

from warmside.api import Basis, Estimate, Unit, format_quantity
from warmside.plugins.feeding.care.diets import Stage
from warmside.plugins.feeding.care.rules import Rules
from warmside.plugins.feeding.energy.rates import Span
from warmside.plugins.feeding.planning.fit import Fit, span_words
from warmside.plugins.feeding.planning.mass import NO_WEIGHT, MassNow
from warmside.plugins.feeding.planning.nearest import one_item_words
from warmside.plugins.feeding.planning.portion import (
    fits,
    meal_range,
    why_nothing_fits,
    width_words,
)
from warmside.plugins.feeding.planning.powders import light_words, next_powder, part_powders
from warmside.plugins.feeding.planning.subject import Subject
from warmside.plugins.feeding.planning.waits import Wait
from warmside.plugins.feeding.planning.window import Window, interval_of, window
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
    interval = interval_of(subject, mass.stages if mass else subject.stages)
    return window(subject, interval, *subject.standing(day, rules), day, rules)


def plan(subject: Subject, day: date, rules: Rules) -> Plan:
    """The plan as seen on a day."""
    bare = outline(subject, day, rules)
    mass, dusting = bare.mass, part_powders(subject)
    dust = next_powder(subject, max(day, bare.due_from or day)) if dusting else None
    if mass is None or subject.species.part.share(mass.stage) is None:
        said = _said(subject, bare.waits, _unsized(subject, mass))
        return replace(bare, dust=dust, dusting=dusting, words=said)
    return replace(_with_meal(subject, bare, mass, rules), dust=dust, dusting=dusting)


def outline(subject: Subject, day: date, rules: Rules) -> Plan:
    """The plan without its food: when, at what mass, and which reasons hold."""
    (reasons, rested), mass = subject.standing(day, rules), subject.mass(day, rules)
    interval = interval_of(subject, mass.stages if mass else subject.stages)
    days = window(subject, interval, reasons, rested, day, rules)
    return Plan(*days, interval, mass, None, (), None, None, reasons, ())


def meal_percent(reasons: tuple[Wait, ...]) -> float:
    """The size of the meal in percent of the usual: the smallest that a reason asks for."""
    return min((w.percent for w in reasons), default=100.0)


def _with_meal(subject: Subject, bare: Plan, mass: MassNow, rules: Rules) -> Plan:
    percent = meal_percent(bare.waits)
    size = meal_range(fed_as(subject, mass.mass), subject.species, percent, mass.stage)
    found, meal = sized(subject, mass.middle, mass.stage, percent, rules), (size.low, size.high)
    about = (*body_words(subject, mass, rules), *_about(found, meal, subject, mass.middle, rules))
    said = _said(subject, bare.waits, mass.words(rules), *about)
    return replace(bare, meal=size, fits=found, words=said)


def _unsized(subject: Subject, mass: MassNow | None) -> str:
    """Why no size can be said, or how much by eye."""
    part = subject.species.part
    if mass is None and part.percent:
        return NO_WEIGHT
    return f"{part.name}: {part.portion}" if part.portion else ""


def sized(
    subject: Subject,
    mass_g: float,
    stage: Stage | None,
    percent: float,
    rules: Rules,
    usual: str | None = None,
) -> tuple[Fit, ...]:
    """The food that makes up a meal at a mass in g, at `percent` of the usual size.

    It goes by the one mass to reckon with, in a plan as in an order, so that both choose alike.
    `usual` is the class that it will have eaten last by then.
    """
    if subject.species.part.share(stage) is None:
        return ()
    mass = Estimate(mass_g, mass_g, mass_g, Unit.MASS, Basis("to reckon with"))
    size = meal_range(fed_as(subject, mass), subject.species, percent, stage)
    eater = subject.eater(mass_g, rules)
    if usual:
        eater = replace(eater, eaten=(usual, *eater.eaten))
    return fits((size.low, size.high), eater)


def fed_as(subject: Subject, mass: Estimate) -> Estimate:
    """The mass by which its meals are sized: of a fat animal no more than it should weigh."""
    ends = (mass.value, mass.low, mass.high)
    value, low, high = (g and subject.body.fed_as_g(g) for g in ends)
    return Estimate(value, low or mass.low, high or mass.high, mass.unit, mass.basis)


def body_words(subject: Subject, mass: MassNow, rules: Rules) -> tuple[str, ...]:
    """What its condition means for its meals."""
    body = subject.body
    usual = span_words(body.usual_g, rules) if body.usual_g else ""
    grams = rules.grams(body.target_g) if body.target_g else usual
    return body.words(mass.middle, grams, mass.stage)


def _length_words(subject: Subject, mass_g: float, rules: Rules) -> str:
    """How long an insect may be, and by what."""
    gap = subject.eater(mass_g, rules).gap_mm
    by = "as measured" if subject.eyes_mm else "worked out from its mass; go by its head"
    long = format_quantity(gap, Unit.LENGTH, rules.display, digits=2)
    return f"insects no longer than the space between its eyes, about {long} ({by})"


def _about(
    found: tuple[Fit, ...], meal: Span, subject: Subject, mass_g: float, rules: Rules
) -> tuple[str, ...]:
    if not found:
        return (why_nothing_fits(meal, subject.species, subject.girth_mm, rules),)
    if found[0].prey.weighed:
        return ()
    if found[0].prey.insect:
        return (_length_words(subject, mass_g, rules), *light_words(subject))
    large = one_item_words(found[0], meal, subject.eater(mass_g, rules))
    return (*filter(None, (large,)), width_words(found[0], subject.girth_mm, rules))


def _said(subject: Subject, reasons: tuple[Wait, ...], *more: str) -> tuple[str, ...]:
    about = subject.species.words_at(subject.stages)
    return tuple(w for w in (*(r.words for r in reasons), *more, about) if w)
