"""The meals of the next weeks for one animal, sizes moving up as it grows."""

from __future__ import annotations

import math
from collections.abc import Callable
from datetime import date, timedelta

from msgspec import Struct

from warmside.api import BadInput, Estimate, counted
from warmside.plugins.feeding.care.diets import rhythm_words
from warmside.plugins.feeding.care.rules import Rules
from warmside.plugins.feeding.care.stages import only
from warmside.plugins.feeding.energy.rates import middle_mass
from warmside.plugins.feeding.planning.mass import grown
from warmside.plugins.feeding.planning.next_meal import Plan, meal_percent, outline, plan, sized
from warmside.plugins.feeding.planning.subject import Subject
from warmside.plugins.feeding.planning.window import interval_of
from warmside.plugins.feeding.prey.classes import Prey, prey_classes

MassOn = Callable[[date], Estimate | None]


class PlannedMeal(Struct, frozen=True):
    """A meal to come: so many items of a class."""

    day: date
    prey: str
    count: int


class Forecast(Struct, frozen=True):
    """The meals to come of one animal and the reasoning.

    `times` is how often it is fed, also by eye, where no meals are sized; None where nothing can be
    said.
    """

    name: str
    meals: tuple[PlannedMeal, ...]
    words: str
    times: int | None = None


def forecast(
    name: str,
    subject: Subject,
    start: date,
    weeks: int,
    rules: Rules,
    mass_on: MassOn | None = None,
) -> Forecast:
    """The meals from a day over some weeks.

    The mass of a day is what `mass_on` (another plugin) expects. Where it says nothing, what it
    last said, or the last weight, grows on at the middle rate of its stage. An open wait plans no
    meal.
    """
    if weeks < 1:
        raise BadInput(f"{weeks} weeks to plan; give at least 1")
    first, end = outline(subject, start, rules), start + timedelta(weeks=weeks)
    if first.due_from is None or (first.mass is None and subject.species.part.percent):
        return Forecast(name, (), "; ".join(plan(subject, start, rules).words))
    if first.due_from >= end:
        return Forecast(name, (), f"the next meal is due after this time, from {first.due_from}", 0)
    if first.mass is None or not subject.species.part.percent:
        return _by_eye(name, subject, first, start, end)
    meals = _meals(subject, first, start, end, rules, mass_on)
    if not meals:
        return Forecast(name, (), "; ".join(plan(subject, start, rules).words))
    return Forecast(name, meals, _words(meals, first, rules), len(meals))


def _by_eye(name: str, subject: Subject, first: Plan, start: date, end: date) -> Forecast:
    """How often it is fed what no share of its mass is known of."""
    assert first.due_from is not None
    days, part = first.interval, subject.species.part
    middle = max(1.0, (days.low + days.high) / 2.0)
    times = math.ceil((end - max(first.due_from, start)).days / middle)
    how = f"{part.name} {rhythm_words((days.low, days.high))}: {counted(times, 'time')}"
    return Forecast(name, (), f"{how}, {part.portion or 'by eye'}", times)


def _meals(
    subject: Subject, first: Plan, start: date, end: date, rules: Rules, mass_on: MassOn | None
) -> tuple[PlannedMeal, ...]:
    assert first.mass is not None and first.due_from is not None
    species, mass, since = subject.species, first.mass.middle, start
    percent, small = meal_percent(first.waits), _small_meals(first, rules)
    found, usual = list[PlannedMeal](), next(iter(subject.eaten()), None)
    day = max(first.due_from, start)
    exact = float(day.toordinal())
    while day < end:
        told = mass_on(day) if mass_on else None
        now = middle_mass(told) if told else grown(mass, (day - since).days / 7.0, species)
        if told:
            mass, since = now, day
        share = percent if len(found) < small else 100.0
        stages = subject.stages_at(now)
        fits = sized(subject, now, only(stages), share, rules, usual)
        if fits:
            usual = fits[0].prey.code
            found.append(PlannedMeal(day, usual, fits[0].count))
        interval = interval_of(subject, stages)
        exact += max(1.0, (interval.low + interval.high) / 2.0)
        day = date.fromordinal(int(exact))
    return tuple(found)


def _small_meals(first: Plan, rules: Rules) -> float:
    """How many meals stay small: as many as must be kept down, or all (gravid)."""
    codes = {w.code for w in first.waits if w.percent < 100.0}
    return rules.regurgitation_meals if codes == {"regurgitated"} else float("inf")


def _words(meals: tuple[PlannedMeal, ...], first: Plan, rules: Rules) -> str:
    runs = list[list[PlannedMeal]]()
    for meal in meals:
        if runs and (runs[-1][0].prey, runs[-1][0].count) == (meal.prey, meal.count):
            runs[-1].append(meal)
        else:
            runs.append([meal])
    names = prey_classes()
    told = [_told(len(r), r[0].count, names[r[0].prey]) for r in runs]
    assert first.mass is not None
    days = rhythm_words((first.interval.low, first.interval.high))
    return f"from {rules.grams(first.mass.middle)}, {days}: " + ", then ".join(told)


def _told(meals: int, count: int, prey: Prey) -> str:
    dish = prey.name if prey.weighed else f"{count} × {prey.name}"
    return f"{meals} meal{'' if meals == 1 else 's'} of {dish}"
