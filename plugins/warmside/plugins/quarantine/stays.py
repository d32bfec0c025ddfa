"""Where all animals stayed, as far back as a quarantine needs it."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date, datetime, time

from warmside.api import Book, Enclosure
from warmside.core.record.whereabouts import NEVER, WHEREABOUTS_KINDS, after
from warmside.plugins.quarantine.newcomers import Stay
from warmside.plugins.quarantine.wall_clock import wall_time


def air_of(enclosure: Enclosure) -> str:
    """What shares its air with the enclosure: its room; itself where no room is on record."""
    room = enclosure.room.strip().casefold()
    return f"room {room}" if room else f"enclosure {enclosure.id}"


def stays(book: Book, on: date, since: date) -> list[Stay]:
    """Every stay of every animal up to a day that reaches into the time from `since` on.

    An animal that has not moved since has one stay, told by its last event: no other is read.
    """
    last = book.latest(*WHEREABOUTS_KINDS, on=on)
    moved = {a for of_kind in last.values() for a, event in of_kind.items() if event.day >= since}
    found: list[Stay] = []
    for animal_id, where in book.animals_here(on).items():
        if animal_id not in moved and where.enclosure_id is not None:
            air = air_of(book.enclosures[where.enclosure_id])
            begin = datetime.combine(where.since, time())
            found.append(Stay(book.animals[animal_id].code, air, begin, None, where.events[-1]))
    for animal_id in sorted(moved):
        found += _all_stays(book, animal_id, on)
    return found


def _all_stays(book: Book, animal_id: int, on: date) -> Iterator[Stay]:
    code = book.animals[animal_id].code
    events = book.events(*WHEREABOUTS_KINDS, animal=animal_id, until=on)
    now = NEVER
    for event, following in zip(events, [*events[1:], None], strict=True):
        now = after(now, event)
        if now.enclosure_id is not None:
            air = air_of(book.enclosures[now.enclosure_id])
            until = wall_time(following, book.home.zone) if following else None
            yield Stay(code, air, wall_time(event, book.home.zone), until, event.id)
