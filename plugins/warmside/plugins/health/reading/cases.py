"""What the record says of cases."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from datetime import date

from warmside.api import About, Book, Event
from warmside.plugins.health.cases.course_of_case import Case, Entry, cases
from warmside.plugins.health.kinds import CASE, CLOSED, EXAMINED


def entry(event: Event) -> Entry:
    """An event as an entry of a case."""
    said = event.data
    recheck = date.fromisoformat(said["recheck"]) if said["recheck"] else None
    closes = said["state"] == CLOSED
    return Entry(event.id, event.day, closes, said["what"], said["awaited"], recheck)


def entries_of(book: Book, animal: int, until: date | None = None) -> list[Entry]:
    """All entries of one animal, the oldest first."""
    return [entry(e) for e in book.events(CASE, animal=animal, until=until)]


def touched(
    book: Book, events: Iterable[Event]
) -> Iterator[tuple[str, list[Entry], frozenset[int]]]:
    """Each animal of which events bring an entry: its code, all its entries, which are new."""
    new = [e for e in events if e.kind == CASE and e.animal_id is not None]
    for animal in dict.fromkeys(e.animal_id for e in new if e.animal_id is not None):
        yield book.animals[animal].code, entries_of(book, animal), frozenset(e.id for e in new)


def open_cases(book: Book, on: date, about: About | None = None) -> Iterator[tuple[int, Case]]:
    """The open case of each animal that is here, or of the one that is meant."""
    last = book.latest(CASE, on=on)[CASE]
    for animal in book.animals_here(on):
        if animal in last and is_meant(book, animal, about, on):
            run = cases(entries_of(book, animal, on))
            if run and run[-1].is_open:
                yield animal, run[-1]


def is_meant(book: Book, animal: int, about: About | None, on: date) -> bool:
    """Whether an animal that is here is the one that is asked about, or lives where is asked."""
    if about is None:
        return True
    if about.animal_id is not None:
        return about.animal_id == animal
    return book.animals_here(on)[animal].enclosure_id == about.enclosure_id


def seen_by_vet(book: Book, animal: int, on: date) -> list[date]:
    """The days on which a vet saw the animal."""
    return [e.day for e in book.events(EXAMINED, animal=animal, until=on)]
