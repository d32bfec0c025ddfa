"""Pairs that may have young: planned, mated of late, or grown up and in one enclosure."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from datetime import date, timedelta
from itertools import combinations

from warmside.core.record.book import Book
from warmside.core.record.entities import Animal, Event
from warmside.core.record.species.life_stage import LifeStage
from warmside.core.record.species.staged import Staged
from warmside.core.values.about import About, Pair

MATED_DAYS = 60  # a mating is a pairing of now for so long; common practice, no source
PLANNED_DAYS = 365  # a pairing that is planned longer than a season was forgotten
PAIRED = ("planned", "together")
StageOf = Callable[[int, date], Staged]
"""The life stage of an animal on a day."""


def pairs_of(book: Book, stage: StageOf, on: date) -> tuple[Pair, ...]:
    """Dam and sire of each pair of one species, each pair once."""
    found = dict.fromkeys([*_planned(book, on), *_mated(book, on), *_together(book, stage, on)])
    return tuple(Pair(About(dam), About(sire)) for dam, sire in found)


def _planned(book: Book, on: date) -> Iterator[tuple[int, int]]:
    """Those whose last pairing is planned or begun; a plan is over once she has laid since."""
    last: dict[tuple[int, int], Event] = {}
    since = on - timedelta(days=PLANNED_DAYS)
    for event in book.events("pairing", since=since, until=on):
        for pair in _of_event(book, event):
            last.pop(pair, None)
            last[pair] = event
    found = ((pair, event) for pair, event in last.items() if event.data["state"] in PAIRED)
    return (pair for pair, event in found if not _laid_since(book, pair[0], event, on))


def _laid_since(book: Book, dam: int, plan: Event, on: date) -> bool:
    laid = book.latest_of(dam, "laid", on=on).get("laid")
    return laid is not None and plan.data["state"] == "planned" and laid.order > plan.order


def _mated(book: Book, on: date) -> Iterator[tuple[int, int]]:
    since = on - timedelta(days=MATED_DAYS)
    for event in book.events("mated", since=since, until=on):
        yield from _of_event(book, event)


def _of_event(book: Book, event: Event) -> Iterator[tuple[int, int]]:
    animals, partner = book.animals, _partner(event)
    if event.animal_id is not None and partner in animals:
        yield from _dam_and_sire(animals[event.animal_id], animals[partner])


def _partner(event: Event) -> int:
    return int(event.data.get("partner_animal_id") or 0)


def _together(book: Book, stage: StageOf, on: date) -> Iterator[tuple[int, int]]:
    """Those that live together; young ones that are raised together are no pair."""
    for inside in book.occupants(on).values():
        for one, other in combinations(inside, 2):
            for pair in _dam_and_sire(book.animals[one], book.animals[other]):
                if all(_may_be_adult(stage, id, on) for id in pair):
                    yield pair


def _dam_and_sire(one: Animal, other: Animal) -> Iterator[tuple[int, int]]:
    if one.species.id == other.species.id and {one.sex, other.sex} == {"female", "male"}:
        dam, sire = (one, other) if one.sex == "female" else (other, one)
        yield dam.id, sire.id


def _may_be_adult(stage: StageOf, animal_id: int, on: date) -> bool:
    staged = stage(animal_id, on)
    return LifeStage.ADULT in (staged.stage, *staged.possible)
