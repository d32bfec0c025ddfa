"""The weighings of animals made ready to be judged; each is read once for a snapshot."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from datetime import date

from warmside.api import About, Ask, LifeStage
from warmside.plugins.weight.course.digestion import digestion_days
from warmside.plugins.weight.course.limits import Limits
from warmside.plugins.weight.course.pace import slowing_of
from warmside.plugins.weight.course.rhythm import LastWeighed
from warmside.plugins.weight.course.series import Weighings
from warmside.plugins.weight.course.weights import (
    WINDOW_DAYS,
    Rows,
    Weights,
    cleaned,
    first_day,
    made_ready,
)
from warmside.plugins.weight.reading.recent import recent_clean
from warmside.plugins.weight.reading.rows import KINDS, rows_of

OLD_DAYS = 400
"""A last weighing older than this is not judged: the task to weigh says all there is to say."""


def limits_of(ask: Ask) -> Limits:
    """The thresholds with the keeper's settings."""
    return ask.book.once(("weight", "limits"), lambda: _limits_of(ask))


def _limits_of(ask: Ask) -> Limits:
    s = ask.settings("weight")
    return Limits(
        acute_loss=s["acute_loss"] / 100,
        acute_days=s["acute_days"],
        chronic_loss=s["chronic_loss"] / 100,
        chronic_days=s["chronic_days"],
        channel_shift=s["channel_shift"],
        low_loss=s["low_loss"] / 100,
        vet_loss=s["vet_loss"] / 100,
        vet_days=s["vet_days"],
        stall_gain=s["stall_gain"] / 100,
        stall_days=s["stall_days"],
        hatchling_stall_days=s["hatchling_stall_days"],
        fast_gain=s["fast_gain"] / 100,
        fast_days=s["fast_days"],
        years_gain=s["years_gain"] / 100,
        digestion_days=s["digestion_days"],
        lizard_digestion_days=s["lizard_digestion_days"],
        display=ask.book.home.display,
    )


def recent(ask: Ask, on: date, about: About | None = None) -> Mapping[int, Weights]:
    """The last year's weighings of each animal here that was weighed within OLD_DAYS, as of a day.

    For a day to come, what is on record today. With `about`, of that animal alone; an enclosure
    has no weight.
    """
    seen = min(on, ask.book.today)
    return ask.book.once(("weight", "recent", seen, about), lambda: _recent(ask, seen, about))


def series(ask: Ask, on: date) -> Mapping[str, Weighings]:
    """The sound weighings of the last year of the animals here, by code."""
    return {w.animal.code: w.sound for w in recent(ask, on).values()}


def whole(ask: Ask, animal_id: int, on: date) -> Weights:
    """All weighings of one animal up to a day."""
    return ask.book.once(("weight", "whole", animal_id, on), lambda: _of_one(ask, animal_id, on))


def weights_for(ask: Ask, animal_id: int, on: date) -> Weights:
    """The weighings up to a day: for today and after, those that were read for all animals."""
    if on >= ask.book.today and animal_id in (known := recent(ask, on)):
        return known[animal_id]
    return whole(ask, animal_id, on)


def last_weighed(ask: Ask, on: date) -> Iterator[LastWeighed]:
    """The animals here, each with its last weighing up to a day."""
    book, known = ask.book, recent(ask, on)
    last = book.latest("weighed", "cooling", on=on)
    for id, where in book.animals_here(on).items():
        weighed, cooling = (last[kind].get(id) for kind in ("weighed", "cooling"))
        cooled = cooling is not None and cooling.data["state"] == "begun"
        day, event = (weighed.day, weighed.id) if weighed else (None, None)
        course = known[id].course if id in known else None
        staged = ask.stage(id, on)
        yield LastWeighed(book.animals[id], where.since, staged, day, event, cooled, course)


def ever_weighed(ask: Ask) -> list[int]:
    """The animals that have a weighing, also those gone."""
    return list(ask.book.latest("weighed")["weighed"])


def _recent(ask: Ask, seen: date, about: About | None) -> dict[int, Weights]:
    limits = limits_of(ask)
    fresh = _fresh(ask, seen, about)
    if not fresh:
        return {}
    window = max(WINDOW_DAYS, limits.chronic_days + 15)
    animals = ask.book.animals
    digestion = {a: digestion_days(animals[a].species.group, limits) for a in fresh}
    clean = recent_clean(ask.book, fresh, window, digestion, seen)
    return {a: made_ready(animals[a], clean[a], *_staged(ask, a, seen)) for a in fresh}


def _fresh(ask: Ask, seen: date, about: About | None) -> dict[int, date]:
    """The day of the last weighing of the animals here that were weighed not long ago."""
    last = ask.book.latest("weighed", on=seen)["weighed"]
    here = ask.book.animals_here(seen)
    asked = here if about is None else [a for a in (about.animal_id,) if a is not None]
    found = {a: last[a].day for a in asked if a in here and a in last}
    return {a: day for a, day in found.items() if (seen - day).days <= OLD_DAYS}


def _of_one(ask: Ask, animal_id: int, on: date) -> Weights:
    rows = rows_of(ask.book, [animal_id], KINDS, None, on).get(animal_id, Rows())
    animal = ask.book.animals[animal_id]
    digestion = digestion_days(animal.species.group, limits_of(ask))
    clean = cleaned(rows, first_day(animal), digestion, None)
    return made_ready(animal, clean, *_staged(ask, animal_id, on))


def _staged(ask: Ask, animal_id: int, on: date) -> tuple[LifeStage | None, float]:
    """Its life stage, and how the growth of its kind slows."""
    staged = ask.stage(animal_id, on)
    return staged.stage, slowing_of([one.adult_days for _, one in staged.life.limits])
