"""The rows of the plugin's animals from the record: read once for a book, for all animals."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable
from datetime import date
from weakref import WeakKeyDictionary

from warmside.core.book import Book
from warmside.core.partial_dates import PartialDate
from warmside.core.record import Animal, Event
from warmside.plugins.shed.aftermath import Aftermath, Look
from warmside.plugins.shed.animal_sheds import AnimalSheds, Rows, as_of
from warmside.plugins.shed.cycle import Seen, Stage
from warmside.plugins.shed.kinds import CHECKED, LEFT_ON, PREPARED
from warmside.plugins.shed.life_stage import life_stage
from warmside.plugins.shed.predictive import Prior, prior_for
from warmside.plugins.shed.slough_eaters import eats_slough

STAGE_KINDS = ("shed", "shedding")
KINDS = (*STAGE_KINDS, CHECKED, PREPARED)

_read: WeakKeyDictionary[Book, dict[int, Rows]] = WeakKeyDictionary()
_here: WeakKeyDictionary[Book, dict[date, list[AnimalSheds]]] = WeakKeyDictionary()


def all_rows(book: Book) -> dict[int, Rows]:
    """The rows of each animal that has any, by animal id; a book's snapshot is read once."""
    if book not in _read:
        mine: dict[int, list[Event]] = defaultdict(list)
        for event in book.events(*KINDS):
            if event.animal_id is not None:
                mine[event.animal_id].append(event)
        _read[book] = {id: rows_of(book.animals[id], events) for id, events in mine.items()}
    return _read[book]


def sheds_here(book: Book, on: date) -> list[AnimalSheds]:
    """The sheds of the animals in the keeper's care that have any, as of a day."""
    days = _here.setdefault(book, {})
    if on not in days:
        rows = all_rows(book)
        days[on] = [as_of(rows[a], on) for a in book.animals_here(on) if a in rows]
    return days[on]


def sheds_of(book: Book, animal: Animal, on: date) -> AnimalSheds:
    """One animal's sheds as of a day."""
    return as_of(all_rows(book).get(animal.id) or rows_of(animal, ()), on)


def rows_of(animal: Animal, events: Iterable[Event]) -> Rows:
    """The rows of one animal from its events of this plugin's interest."""
    mine = list(events)
    return Rows(
        animal.id,
        animal.code,
        animal.name,
        eats_slough((animal.species.scientific,)),
        seen_in(mine),
        tuple(_aftermath(e) for e in mine if e.kind == "shed"),
        tuple(_look(e) for e in mine if e.kind == CHECKED),
        tuple(e.day for e in mine if e.kind == PREPARED),
    )


def seen_in(events: Iterable[Event]) -> tuple[Seen, ...]:
    """The stages and sheds among the events."""
    return tuple(
        Seen(e.day, Stage.SHED if e.kind == "shed" else Stage(e.data["stage"]), e.id)
        for e in events
        if e.kind in STAGE_KINDS
    )


def prior_of(book: Book, hatched: PartialDate | None, on: date) -> Prior:
    """The prior of the life stage that an animal of that age is in."""
    settings = book.settings("shed")
    limits = settings["subadult_from"], settings["adult_from"]
    return prior_for(life_stage(hatched, on, *limits))


def meals_taken(book: Book, animal_id: int, on: date) -> list[date]:
    """The days of the meals that an animal took."""
    fed = book.events("fed", animal=animal_id, until=on)
    return [e.day for e in fed if e.data["outcome"] in ("taken", "part taken")]


def _aftermath(event: Event) -> Aftermath:
    retained = tuple(event.data["retained"])
    slough = event.data["slough_mm"]
    return Aftermath(
        event.day, event.data["outcome"], retained, retained, None, slough, (event.id,)
    )


def _look(event: Event) -> Look:
    left_on = event.data["found"] == LEFT_ON
    return Look(event.day, left_on, tuple(event.data["where"]), event.id)
