"""The next shed of an animal, from its sheds, its age and its meals on record."""

from __future__ import annotations

from datetime import date

from warmside.api import Ask, Book, PartialDate
from warmside.plugins.shed.cycles.animal import AnimalSheds
from warmside.plugins.shed.forecast.life_stage import life_stage
from warmside.plugins.shed.forecast.next_shed import NextShed, may_be_overdue, next_shed, overdue
from warmside.plugins.shed.forecast.predictive import Prior, prior_for
from warmside.plugins.shed.reading.sheds import is_cooled, sheds_of

TAKEN = ("taken", "part taken")


def prior_of(ask: Ask, hatched: PartialDate | None, on: date) -> Prior:
    """The prior of the life stage that an animal of that age is in."""
    settings = ask.settings("shed")
    limits = settings["subadult_from"], settings["adult_from"]
    return prior_for(life_stage(hatched, on, *limits))


def meals_taken(book: Book, animal_id: int, on: date) -> list[date]:
    """The days of the meals that an animal took."""
    fed = book.events("fed", animal=animal_id, until=on)
    return [e.day for e in fed if e.data["outcome"] in TAKEN]


def ahead_of(ask: Ask, sheds: AnimalSheds, prior: Prior | None) -> NextShed | None:
    """The next shed of an animal, with age and meals where its own sheds show that they matter."""
    meals = meals_taken(ask.book, sheds.rows.animal_id, sheds.on)
    return next_shed(sheds.history, sheds.on, prior, _born(ask, sheds), meals)


def usual_ahead(ask: Ask, sheds: AnimalSheds) -> NextShed | None:
    """The next shed of an animal with the prior of its age."""
    return ahead_of(ask, sheds, _prior(ask, sheds))


def between_sheds(ask: Ask, sheds: AnimalSheds) -> NextShed | None:
    """The next shed by age alone, where no stage says more and sloughs are found."""
    if not sheds.between:
        return None
    return next_shed(sheds.history, sheds.on, _prior(ask, sheds), _born(ask, sheds))


def overdue_of(ask: Ask, newest: AnimalSheds) -> NextShed | None:
    """The next shed if it is overdue; not judged in winter cooling.

    Most animals are passed over by their newest sheds; only of the others are all sheds read.
    """
    book, id, on = ask.book, newest.rows.animal_id, newest.on
    if not newest.between or is_cooled(book, id, on):
        return None
    prior = _prior(ask, newest)
    if not may_be_overdue(newest.history, on, prior):
        return None
    every = sheds_of(book, book.animals[id], on)
    return overdue(every.history, on, prior, _born(ask, newest))


def _prior(ask: Ask, sheds: AnimalSheds) -> Prior:
    return prior_of(ask, ask.book.animals[sheds.rows.animal_id].hatched, sheds.on)


def _born(ask: Ask, sheds: AnimalSheds) -> date | None:
    hatched = ask.book.animals[sheds.rows.animal_id].hatched
    return hatched.earliest if hatched else None
