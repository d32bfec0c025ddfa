"""Who of those here is to be looked at: few or none, found at once and without much imported."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date, timedelta

from warmside.api import About, Ask, Book, Event
from warmside.plugins.health.kinds import APPOINTMENT, CASE, COURSE, DIED, SAMPLE, VACCINATED

ASKED_DAYS = timedelta(days=30)
"""So long after a death its questions stay (common practice, no source)."""
CAME = ("kept", "arrived")


def ill(book: Book, on: date, about: About | None = None) -> Iterator[int]:
    """Those of whom a case or course is on record up to a day; of one or an enclosure if asked."""
    last = book.latest(CASE, COURSE, on=on)
    if not last[CASE] and not last[COURSE]:
        return
    for animal, where in book.animals_here(on).items():
        if animal in last[CASE] or animal in last[COURSE]:
            place = About(enclosure_id=where.enclosure_id)
            if about is None or about.animal_id == animal or about == place:
                yield animal


def anything_awaited(book: Book, on: date) -> bool:
    """Whether an appointment, a sample or a vaccination is on record."""
    return any(book.latest(APPOINTMENT, SAMPLE, VACCINATED, on=on).values())


def lately_died(book: Book, on: date) -> list[Event]:
    """The deaths of the last weeks, about which something may be asked."""
    return list(book.events(DIED, since=on - ASKED_DAYS, until=on))


def long_here(ask: Ask, on: date) -> Iterator[tuple[int, Event, int]]:
    """Those that have been here for as long as lies between two faecal checks, by their coming.

    Gives the animal, the event with which it came, and the days between two checks.
    """
    last = ask.book.latest(*CAME, on=on)
    for animal in ask.book.animals_here(on):
        kept, came = last["kept"].get(animal), last["arrived"].get(animal)
        if came is None or (kept is not None and kept.order > came.order):
            came = kept
        every = round(float(ask.setting("health", "faecal_days", About(animal))))
        if every and came is not None and came.day + timedelta(days=every) <= on:
            yield animal, came, every
