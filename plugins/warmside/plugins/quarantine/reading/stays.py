"""Where all animals stayed, as far back as a quarantine needs it."""

from __future__ import annotations

from datetime import date, datetime, time

from warmside.api import Book, Whereabouts
from warmside.plugins.quarantine.contact.company import air_of
from warmside.plugins.quarantine.contact.newcomers import Stay
from warmside.plugins.quarantine.reading.wall_clock import wall_time


def stays(book: Book, on: date, since: date) -> list[Stay]:
    """Every stay of every animal up to a day that reaches into the time from `since` on.

    An animal that has not moved since has one stay, told by its last event: no other is read.
    """
    found: list[Stay] = []
    for animal_id, where in book.whereabouts(on).items():
        if where.since >= since:
            found += _all_stays(book, animal_id, on)
        elif where.enclosure_id is not None:
            begin = datetime.combine(where.since, time())
            found.append(_stay(book, animal_id, where, begin, None))
    return found


def _all_stays(book: Book, animal_id: int, on: date) -> list[Stay]:
    def make() -> list[Stay]:
        stretches = book.whereabouts_history(animal_id, on)
        begins = [wall_time(book.event(w.events[-1]), book.home.zone) for w in stretches]
        rows = zip(stretches, begins, [*begins[1:], None], strict=True)
        return [
            _stay(book, animal_id, where, begin, until)
            for where, begin, until in rows
            if where.enclosure_id is not None
        ]

    return book.once(("quarantine", "stays", animal_id, on), make)


def _stay(
    book: Book, animal_id: int, where: Whereabouts, begin: datetime, until: datetime | None
) -> Stay:
    assert where.enclosure_id is not None
    air = air_of(book.enclosures[where.enclosure_id])
    return Stay(book.animals[animal_id].code, air, begin, until, where.events[-1])
