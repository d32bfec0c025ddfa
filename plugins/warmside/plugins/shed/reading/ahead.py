"""The next shed of an animal, from its sheds, its age and its meals on record."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date

from warmside.api import Animal, Ask, Book, Estimate, PartialDate
from warmside.plugins.shed.cycles.animal import AnimalSheds
from warmside.plugins.shed.cycles.now import where
from warmside.plugins.shed.cycles.shipped import eats_slough
from warmside.plugins.shed.forecast.life_stage import life_stage
from warmside.plugins.shed.forecast.next_shed import (
    NextShed,
    days_to_slough,
    may_be_overdue,
    next_shed,
    overdue,
)
from warmside.plugins.shed.forecast.predictive import Prior, prior_for
from warmside.plugins.shed.reading.sheds import histories, is_cooled

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


def between_sheds(ask: Ask, animal: Animal, on: date) -> Estimate | None:
    """The days to the slough by age alone, where no stage says more and sloughs are found."""
    history = histories(ask.book, [animal.id], on)[animal.id]
    if where(history).stage is not None or eats_slough((animal.species.scientific,)):
        return None
    return days_to_slough(history, on, prior_of(ask, animal.hatched, on), born(animal))


def overdue_among(ask: Ask, newest: Sequence[AnimalSheds], on: date) -> dict[int, NextShed]:
    """The next sheds that are overdue, by animal; not judged in winter cooling.

    Most animals are passed over by their newest sheds; only of the others are all sheds read.
    """
    doubtful = {s.rows.animal_id: s for s in newest if _may_be_overdue(ask, s)}
    every = histories(ask.book, doubtful, on)
    found = {}
    for id, sheds in doubtful.items():
        late = overdue(every[id], on, _prior(ask, sheds), _born(ask, sheds))
        if late is not None:
            found[id] = late
    return found


def _may_be_overdue(ask: Ask, newest: AnimalSheds) -> bool:
    if not newest.between or is_cooled(ask.book, newest.rows.animal_id, newest.on):
        return False
    return may_be_overdue(newest.history, newest.on, _prior(ask, newest))


def _prior(ask: Ask, sheds: AnimalSheds) -> Prior:
    return prior_of(ask, ask.book.animals[sheds.rows.animal_id].hatched, sheds.on)


def _born(ask: Ask, sheds: AnimalSheds) -> date | None:
    return born(ask.book.animals[sheds.rows.animal_id])


def born(animal: Animal) -> date | None:
    """The first day on which an animal can have hatched."""
    return animal.hatched.earliest if animal.hatched else None
