"""Deaths on record: what was said of each since, and what its home, company and last meals were."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date, timedelta

from warmside.api import Book, Event
from warmside.plugins.health.deaths.death import Death, Said
from warmside.plugins.health.kinds import DEATH
from warmside.plugins.health.reading.ill import lately_died

MEAL_DAYS = timedelta(days=30)
"""Meals of so long before a death are looked at (common practice, no source)."""
MOST_MEALS = 3
FROZEN = (None, "thawed")
"""The forms of prey that may come out of a freezer; none named may be, too."""


def recent_deaths(book: Book, on: date) -> Iterator[tuple[Death, list[Said]]]:
    """The deaths of the last weeks, each with what was written since."""
    for event in lately_died(book, on):
        yield death_of(book, event), said_of(book, event.animal_id or 0, on)


def death_of(book: Book, event: Event) -> Death:
    """An event as a death, with what was so on the day before it."""
    animal = event.animal_id
    assert animal is not None
    before = event.day - timedelta(days=1)
    home = book.whereabouts(before)[animal].enclosure_id
    meals = _meals(book, animal, event.day)
    label = book.animals[animal].label
    company = _company(book, animal, home, event.day)
    return Death(event.id, animal, label, event.day, home, company, meals)


def _company(book: Book, animal: int, home: int | None, on: date) -> tuple[str, ...]:
    """Those that lived in its enclosure or its room and are here still."""
    here = book.animals_here(on)
    room = book.enclosures[home].room if home else ""

    def beside(place: int | None) -> bool:
        near = place is not None and bool(room) and book.enclosures[place].room == room
        return place is not None and (place == home or near)

    found = (a for a, where in here.items() if a != animal and beside(where.enclosure_id))
    return tuple(book.animals[a].label for a in found)


def _meals(book: Book, animal: int, on: date) -> tuple[str, ...]:
    fed = book.events("fed", animal=animal, since=on - MEAL_DAYS, until=on)
    frozen = [e for e in fed if e.data["form"] in FROZEN]
    return tuple(f"{e.data['item']} on {e.day}" for e in frozen[-MOST_MEALS:])


def said_of(book: Book, animal: int, on: date) -> list[Said]:
    """What was written of an animal after its death."""
    names = ("found", "necropsy", "contacts", "equipment", "prey")
    return [
        Said(e.id, *(e.data[name] or "" for name in names))
        for e in book.events(DEATH, animal=animal, until=on)
    ]
