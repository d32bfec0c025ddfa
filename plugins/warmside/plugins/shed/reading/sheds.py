"""The sheds of animals as of a day; a book's snapshot is read once."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Collection, Iterable, Iterator, Mapping
from datetime import date

from warmside.api import About, Animal, Book, Event
from warmside.plugins.shed.cycles.animal import AnimalSheds, Rows, as_of
from warmside.plugins.shed.cycles.cycle import Doubt, History, doubts_about, read
from warmside.plugins.shed.reading.events import (
    KINDS,
    STAGE_KINDS,
    Noted,
    newest,
    noted,
    rows_of,
    seen_in,
    sights,
)


def all_rows(book: Book) -> Mapping[int, Rows]:
    """The rows of each animal that has any, by animal id."""
    return book.once(("shed", "all rows"), lambda: _all_rows(book))


def _all_rows(book: Book) -> dict[int, Rows]:
    mine: dict[int, list[Noted]] = defaultdict(list)
    for event in book.events(*KINDS):
        if event.animal_id is not None:
            mine[event.animal_id].append(noted(event))
    return {id: rows_of(book.animals[id], events) for id, events in mine.items()}


def sheds_here(book: Book, on: date) -> list[AnimalSheds]:
    """The sheds of the animals in the keeper's care that have any, as of a day."""
    rows = all_rows(book)
    return [as_of(rows[a], on) for a in book.animals_here(on) if a in rows]


def sheds_within(book: Book, enclosure_id: int, on: date) -> list[AnimalSheds]:
    """As `sheds_here`, of those that live in one enclosure."""
    within = book.occupants(on).get(enclosure_id, ())
    found = (sheds_of(book, book.animals[a], on) for a in within)
    return [sheds for sheds in found if sheds.rows.seen]


def newest_here(book: Book, on: date, about: About | None = None) -> list[AnimalSheds]:
    """As `sheds_here`, of the newest events only: enough for what a day asks for.

    With `about`, of that animal alone; an enclosure has no sheds.
    """
    return book.once(("shed", "newest", on, about), lambda: _newest_here(book, on, about))


def _newest_here(book: Book, on: date, about: About | None) -> list[AnimalSheds]:
    here = [a for a in book.animals_here(on) if about is None or a == about.animal_id]
    mine = newest(book, here, on)
    return [as_of(rows_of(book.animals[a], mine[a]), on) for a in here if a in mine]


def sheds_of(book: Book, animal: Animal, on: date) -> AnimalSheds:
    """One animal's sheds as of a day."""

    def read() -> Rows:
        events = book.events(*KINDS, animal=animal.id)
        return rows_of(animal, [noted(e) for e in events])

    return as_of(book.once(("shed", "of one", animal.id), read), on)


def histories(book: Book, ids: Collection[int], on: date) -> dict[int, History]:
    """All cycles of these animals up to a day, read for all of them at once."""
    known: dict[tuple[int, date], History] = book.once(("shed", "histories"), dict)
    missing = [id for id in ids if (id, on) not in known]
    if missing:
        mine = sights(book, missing, on)
        known |= {(id, on): read(mine.get(id, ()), on) for id in missing}
    return {id: known[id, on] for id in ids}


def last_examined(book: Book, animal_id: int, on: date) -> date | None:
    """The day of the last visit to a vet."""
    last = book.latest("examined", "cooling", on=on)["examined"].get(animal_id)
    return last.day if last else None


def is_cooled(book: Book, animal_id: int, on: date) -> bool:
    """Whether the animal is in winter cooling."""
    last = book.latest("examined", "cooling", on=on)["cooling"].get(animal_id)
    return last is not None and last.data["state"] == "begun"


def new_doubts(book: Book, events: Iterable[Event]) -> Iterator[tuple[Animal, Doubt]]:
    """The doubts that newly recorded stages and sheds bring; `book` holds them already."""
    new = {e.id: e.animal_id for e in events if e.kind in STAGE_KINDS}
    for animal_id in sorted({a for a in new.values() if a is not None}):
        seen = seen_in(noted(e) for e in book.events(*STAGE_KINDS, animal=animal_id))
        for doubt in doubts_about(seen, new):
            yield book.animals[animal_id], doubt
