"""What the record says of cases."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from datetime import date

from warmside.api import Book, Event
from warmside.plugins.health.cases.course_of_case import Case, Entry
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


def seen_by_vet(book: Book, animal: int, on: date) -> list[date]:
    """The days on which a vet saw the animal."""
    return [e.day for e in book.events(EXAMINED, animal=animal, until=on)]


def last_visit(book: Book, animal: int, case: Case, on: date) -> Event | None:
    """The newest visit to a vet within a case, after its newest entry."""
    since = case.entries[-1].day
    visits = book.events(EXAMINED, animal=animal, since=since, until=on)
    return next((e for e in reversed(list(visits)) if e.id > case.entries[-1].event), None)
