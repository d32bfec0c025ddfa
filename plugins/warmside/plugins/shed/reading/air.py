"""The collection's sheds, each with the air that was read before it where the animal lived."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable, Mapping
from datetime import date

from warmside.api import Book, Event
from warmside.plugins.shed.causes.air import Air, Noted, Stays, humidity_before, mistings_before
from warmside.plugins.shed.causes.why import ShedSeen, went_wrong
from warmside.plugins.shed.cycles.animal import as_of
from warmside.plugins.shed.reading.sheds import all_rows


def sheds_with_air(book: Book, on: date) -> list[ShedSeen]:
    """All sheds up to a day, each with the humidity and the mistings before it."""
    air = Air(_humidity(book, on), _misted(book, on))
    return [
        ShedSeen(
            animal_id,
            went_wrong(shed.outcome, shed.retained),
            humidity_before(shed.day, stays, air),
            mistings_before(shed.day, stays, air),
            shed.events[0],
        )
        for animal_id, rows in all_rows(book).items()
        for stays in (_stays(book, animal_id, on),)
        for shed in as_of(rows, on).sheds
    ]


def _humidity(book: Book, on: date) -> Mapping[int, list[Noted]]:
    read = ((e, e.data["humidity_percent"]) for e in book.events("climate", until=on))
    return _by_enclosure((event, value) for event, value in read if value is not None)


def _misted(book: Book, on: date) -> Mapping[int, list[Noted]]:
    return _by_enclosure((e, 1.0) for e in book.events("misted", until=on))


def _by_enclosure(noted: Iterable[tuple[Event, float]]) -> Mapping[int, list[Noted]]:
    found: dict[int, list[Noted]] = defaultdict(list)
    for event, value in noted:
        if event.enclosure_id is not None:
            found[event.enclosure_id].append((event.day, value))
    return found


def _stays(book: Book, animal_id: int, on: date) -> Stays:
    """Where the animal lived: its enclosures from day to day."""
    return [(w.since, w.enclosure_id) for w in book.whereabouts_history(animal_id, on)]
