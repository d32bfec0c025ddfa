"""What the record says of rhythms: those that are set, and when each thing was last done."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date

from warmside.api import About, Ask, Book, Event, EventKind, Subject
from warmside.plugins.rhythm.intervals.next_time import CLEANED, FULL, Done, Rhythm


def rhythms(book: Book) -> list[Rhythm]:
    """All rhythms, by kind, in the order in which they were set."""
    return book.once(("rhythm", "all"), lambda: _rhythms(book))


def _rhythms(book: Book) -> list[Rhythm]:
    return list(stored(book).values())


def stored(book: Book) -> dict[int, Rhythm]:
    """The rhythms by their numbers, by kind, in the order in which they were set."""
    query = (
        "SELECT id, kind, days, animal_id, enclosure_id, coalesce(extent, '') "
        "FROM rhythm_interval ORDER BY kind, id"
    )
    return {
        number: Rhythm(kind, days, About(animal, enclosure), extent)
        for number, kind, days, animal, enclosure, extent in book.rows(query)
    }


def kinds(ask: Ask) -> list[EventKind]:
    """The kinds that have a rhythm; those of plugins that are not at work are left out."""
    names = dict.fromkeys(r.kind for r in rhythms(ask.book))
    return [ask.kinds[name] for name in names if name in ask.kinds]


def concerns(kind: EventKind, about: About) -> bool:
    """Whether events of a kind are about such a subject: an animal, or an enclosure."""
    return (kind.subject is Subject.ENCLOSURE) == (about.animal_id is None)


def subjects(book: Book, kind: EventKind, on: date) -> Iterator[Done]:
    """Whom a kind is about on a day: animals in care, or enclosures that are lived in."""
    if kind.subject is Subject.ENCLOSURE:
        yield from _enclosures(book, kind.name, on)
    else:
        yield from _animals(book, kind.name, on)


def _animals(book: Book, kind: str, on: date) -> Iterator[Done]:
    last = book.latest(kind, on=on)[kind]
    for animal, where in book.animals_here(on).items():
        yield Done(About(animal_id=animal), where.since, *_done(last.get(animal)))


def _enclosures(book: Book, kind: str, on: date) -> Iterator[Done]:
    last = book.latest_in(kind, on=on)[kind]
    here = book.animals_here(on)
    full = _full_cleans(book, on) if kind == CLEANED else {}
    for enclosure, animals in book.occupants(on).items():
        since = min(here[a].since for a in animals)
        about, done = About(enclosure_id=enclosure), _done(last.get(enclosure))
        yield Done(about, since, *done, fresh=True, full=_done(full.get(enclosure)))


def _full_cleans(book: Book, on: date) -> dict[int | None, Event]:
    """The last full clean of each enclosure."""
    cleaned = book.events(CLEANED, until=on)
    return {e.enclosure_id: e for e in cleaned if e.data["extent"] == FULL}


def _done(event: Event | None) -> tuple[date | None, int | None]:
    return (event.day, event.id) if event else (None, None)
