"""The rows of the plugin's animals from the record; a book's snapshot is read once."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable, Sequence
from datetime import date
from weakref import WeakKeyDictionary

from warmside.api import Animal, Book, PartialDate
from warmside.plugins.shed.aftermath import Aftermath, Look
from warmside.plugins.shed.animal_sheds import AnimalSheds, Rows, as_of
from warmside.plugins.shed.cycle import Seen, Stage
from warmside.plugins.shed.kinds import CHECKED, LEFT_ON, PREPARED
from warmside.plugins.shed.life_stage import life_stage
from warmside.plugins.shed.newest import Noted, newest, noted
from warmside.plugins.shed.predictive import Prior, prior_for
from warmside.plugins.shed.slough_eaters import eats_slough

STAGE_KINDS = ("shed", "shedding")
KINDS = (*STAGE_KINDS, CHECKED, PREPARED)

_all: WeakKeyDictionary[Book, dict[int, Rows]] = WeakKeyDictionary()
_of_one: WeakKeyDictionary[Book, dict[int, Rows]] = WeakKeyDictionary()
_newest: WeakKeyDictionary[Book, dict[date, list[AnimalSheds]]] = WeakKeyDictionary()


def all_rows(book: Book) -> dict[int, Rows]:
    """The rows of each animal that has any, by animal id; a book's snapshot is read once."""
    if book not in _all:
        mine: dict[int, list[Noted]] = defaultdict(list)
        for event in book.events(*KINDS):
            if event.animal_id is not None:
                mine[event.animal_id].append(noted(event))
        _all[book] = {id: rows_of(book.animals[id], events) for id, events in mine.items()}
    return _all[book]


def sheds_here(book: Book, on: date) -> list[AnimalSheds]:
    """The sheds of the animals in the keeper's care that have any, as of a day."""
    rows = all_rows(book)
    return [as_of(rows[a], on) for a in book.animals_here(on) if a in rows]


def newest_here(book: Book, on: date) -> list[AnimalSheds]:
    """As `sheds_here`, of the newest events only: enough for what a day asks for."""
    days = _newest.setdefault(book, {})
    if on not in days:
        here = book.animals_here(on)
        mine = newest(book, KINDS, here, on)
        days[on] = [as_of(rows_of(book.animals[a], mine[a]), on) for a in here if a in mine]
    return days[on]


def sheds_of(book: Book, animal: Animal, on: date) -> AnimalSheds:
    """One animal's sheds as of a day."""
    known = _of_one.setdefault(book, {})
    if animal.id not in known:
        events = book.events(*KINDS, animal=animal.id)
        known[animal.id] = rows_of(animal, [noted(e) for e in events])
    return as_of(known[animal.id], on)


def rows_of(animal: Animal, mine: Sequence[Noted]) -> Rows:
    """The rows of one animal from what is noted of it."""
    return Rows(
        animal.id,
        animal.code,
        animal.name,
        eats_slough((animal.species.scientific,)),
        seen_in(mine),
        tuple(_aftermath(n) for n in mine if n.kind == "shed"),
        tuple(_look(n) for n in mine if n.kind == CHECKED),
        tuple(n.day for n in mine if n.kind == PREPARED),
    )


def seen_in(mine: Iterable[Noted]) -> tuple[Seen, ...]:
    """The stages and sheds among what is noted."""
    return tuple(
        Seen(n.day, Stage.SHED if n.kind == "shed" else Stage(n.data["stage"]), n.event)
        for n in mine
        if n.kind in STAGE_KINDS
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


def _aftermath(shed: Noted) -> Aftermath:
    retained = tuple(shed.data["retained"])
    slough = shed.data["slough_mm"]
    return Aftermath(
        shed.day, shed.data["outcome"], retained, retained, None, slough, (shed.event,)
    )


def _look(look: Noted) -> Look:
    left_on = look.data["found"] == LEFT_ON
    return Look(look.day, left_on, tuple(look.data["where"]), look.event)
