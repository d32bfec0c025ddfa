"""The next shed of an animal, from its sheds, its life stage and its meals on record."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date

from warmside.api import Animal, Ask, Book, Estimate
from warmside.plugins.shed.cycles.animal import AnimalSheds
from warmside.plugins.shed.forecast.forecast import Forecast
from warmside.plugins.shed.forecast.life_stage import prior_stage
from warmside.plugins.shed.forecast.next_shed import NextShed, next_shed
from warmside.plugins.shed.forecast.outlook import Outlook, outlook
from warmside.plugins.shed.forecast.predictive import Prior, prior_for
from warmside.plugins.shed.reading.events import STAGE_KINDS
from warmside.plugins.shed.reading.sheds import histories, is_cooled, newest_here

TAKEN = ("taken", "part taken")
EVENTS = tuple(f"event:{kind}" for kind in STAGE_KINDS)


def prior_of(ask: Ask, animal_id: int, on: date) -> Prior:
    """The prior of the life stage that an animal is in, and of its species' group."""
    group = ask.book.animals[animal_id].species.group
    return prior_for(prior_stage(ask.stage(animal_id, on)), group)


def meals_taken(book: Book, animal_id: int, on: date) -> list[date]:
    """The days of the meals that an animal took."""
    fed = book.events("fed", animal=animal_id, until=on)
    return [e.day for e in fed if e.data["outcome"] in TAKEN]


def ahead_of(ask: Ask, sheds: AnimalSheds, prior: Prior | None) -> NextShed | None:
    """The next shed of an animal, with age and meals where its own sheds show that they matter."""
    meals = meals_taken(ask.book, sheds.rows.animal_id, sheds.on)
    return next_shed(sheds.history, sheds.on, prior, _born(ask, sheds), meals)


def usual_ahead(ask: Ask, sheds: AnimalSheds) -> NextShed | None:
    """The next shed of an animal with the prior of its stage."""
    return ahead_of(ask, sheds, _prior(ask, sheds))


def between_sheds(ask: Ask, animal: Animal, on: date) -> Estimate | None:
    """The days to the slough by life stage alone, where no sight says more."""
    make = lambda: outlooks(ask, [s for s in newest_here(ask.book, on) if s.between], on)  # noqa: E731
    ahead = ask.book.once(("shed", "outlooks here", on), make).get(animal.id)
    return ahead.days_to_slough(on) if ahead else None


def overdue_among(ask: Ask, newest: Sequence[AnimalSheds], on: date) -> dict[int, Forecast]:
    """The next sheds that are newly overdue, by animal; not judged in winter cooling."""
    judged = [s for s in newest if s.between and not is_cooled(ask.book, s.rows.animal_id, on)]
    ahead = outlooks(ask, judged, on)
    late = ((id, found.newly_overdue(on)) for id, found in ahead.items())
    return {id: found for id, found in late if found is not None}


def outlooks(ask: Ask, between: Sequence[AnimalSheds], on: date) -> dict[int, Outlook]:
    """What animals that are between two sheds have ahead, by animal; kept across runs.

    Of those alone, since a cycle that is under way is over one day without a new record.
    """
    book = ask.book
    known: dict[int, Outlook] = book.once(("shed", "outlooks", on), dict)
    missing = [s for s in between if s.rows.animal_id not in known]
    if missing:
        animals = [book.animals[s.rows.animal_id] for s in missing]
        rests = {a.id: (prior_of(ask, a.id, on), born(a)) for a in animals}

        def make(ids: Sequence[int]) -> dict[int, Outlook]:
            every = histories(book, ids, on)
            found = {id: outlook(every[id], *rests[id]) for id in ids}
            return {id: ahead for id, ahead in found.items() if ahead is not None}

        known |= book.derived_each("shed.outlook", on, rests, EVENTS, make, Outlook)
    return {s.rows.animal_id: known[s.rows.animal_id] for s in between if s.rows.animal_id in known}


def _prior(ask: Ask, sheds: AnimalSheds) -> Prior:
    return prior_of(ask, sheds.rows.animal_id, sheds.on)


def _born(ask: Ask, sheds: AnimalSheds) -> date | None:
    return born(ask.book.animals[sheds.rows.animal_id])


def born(animal: Animal) -> date | None:
    """The first day on which an animal can have hatched."""
    return animal.hatched.earliest if animal.hatched else None
