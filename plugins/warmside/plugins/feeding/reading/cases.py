"""What a fast is judged by, read for one animal."""

from __future__ import annotations

from datetime import date, timedelta

from warmside.api import About
from warmside.plugins.feeding.condition.fasting import FastCost, cost_of
from warmside.plugins.feeding.condition.loss import loss
from warmside.plugins.feeding.condition.refusals import Case, streak
from warmside.plugins.feeding.condition.season import season_of
from warmside.plugins.feeding.planning.subject import Subject
from warmside.plugins.feeding.planning.waits import Wait
from warmside.plugins.feeding.planning.window import interval_of
from warmside.plugins.feeding.reading import Reading

# How far back refusals of earlier years are looked for.
HISTORY_DAYS = 800
LOSS = "weight_loss"


def case_of(reading: Reading, animal_id: int, subject: Subject, reasons: tuple[Wait, ...]) -> Case:
    """The case of one animal that refuses, as of the day of the reading."""
    on, rules = reading.on, reading.rules
    weighed = reading.weighings(animal_id, on - timedelta(days=round(rules.chronic_days)))
    days = interval_of(subject, subject.stages)
    return Case(
        reading.meals_since(animal_id, on - timedelta(days=HISTORY_DAYS)).offers,
        loss(weighed, on, rules, subject.situation.laid),
        reasons,
        (days.low, days.high),
        subject.stage,
        subject.form,
        reading.book.animals[animal_id].sex,
        season_of(subject.species.latin),
        subject.here_since,
        subject.weighing,
        cost_so_far(reading, animal_id, subject),
        loss_is_told(reading, animal_id),
        subject.situation.cooling[1] if subject.situation.cooling else None,
    )


def cost_so_far(reading: Reading, animal_id: int, subject: Subject) -> FastCost | None:
    """What the fast of an animal has cost so far; None while it eats or where it cannot be said.

    Eggs that were laid meanwhile are no cost of it: only weighings since count.
    """
    eaten = subject.last_meal
    if not subject.species.has_stages:
        return None
    if eaten is None or not (streak(subject.offers) or subject.situation.cooling):
        return None
    laid = subject.situation.laid or date.min
    since: date = max(eaten.day - timedelta(days=30), laid + timedelta(days=1))
    day = reading.day_c(animal_id) or subject.species.usual_day
    return cost_of(reading.weighings(animal_id, since), eaten.day, day)


def loss_is_told(reading: Reading, animal_id: int) -> bool:
    """Whether another plugin speaks on the animal's loss, so that one fact is one row."""
    return bool(reading.ask.answers(LOSS, About(animal_id), reading.on))
