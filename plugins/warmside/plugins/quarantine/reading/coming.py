"""Animals that came, and whether a quarantine covers their coming."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from datetime import date, timedelta

from warmside.api import About, Animal, Ask, Book, Event
from warmside.plugins.quarantine.entry.beginning import needs_quarantine
from warmside.plugins.quarantine.kinds import STARTED
from warmside.plugins.quarantine.protocol.terms import Protocol
from warmside.plugins.quarantine.reading.events import CAME, current
from warmside.plugins.quarantine.reading.standing import asked_about, computable, running_of
from warmside.plugins.quarantine.reading.standing import standing as standing_of
from warmside.plugins.quarantine.reading.stored import default_protocol, protocols

Began = tuple[Event, str]


def to_begin(ask: Ask, events: Iterable[Event]) -> Iterator[Began]:
    """Each recorded coming that asks for a quarantine and has none yet, with the protocol."""
    for event in events:
        came = event.kind in CAME and needs_quarantine(event, ask.book.today)
        if came and not _is_covered(ask, event):
            yield event, default_protocol(ask, About(event.animal_id))


def _is_covered(ask: Ask, came: Event) -> bool:
    """Whether a quarantine covers this coming, or the animal has left or died since."""
    book = ask.book
    assert came.animal_id is not None
    if came.animal_id not in book.animals_here():
        return True
    if any(_begun_by(book, start, came) for start in book.events(STARTED, animal=came.animal_id)):
        return True
    state = running_of(ask, came.animal_id, came.day)
    if state is None:
        return False
    return came.kind == "returned" or not _left(book, came.animal_id, state.started, came.day)


def _begun_by(book: Book, start: Event, came: Event) -> bool:
    arrival = start.data["arrival"]
    now = current(book, arrival) if arrival is not None else None
    return now is not None and now.id == came.id


def _left(book: Book, animal_id: int, since: date, until: date) -> bool:
    """Whether the animal went away between the two days."""
    stretches = book.whereabouts_history(animal_id, until)
    return any(not w.custody.is_here and w.since >= since for w in stretches)


def arrival_on(book: Book, animal_id: int, day: date) -> int | None:
    """The event by which the animal came on that very day."""
    last = book.latest_of(animal_id, *CAME, on=day)
    came = [last[kind] for kind in CAME if kind in last and last[kind].day == day]
    return came[-1].id if came else None


def uncovered(
    ask: Ask, on: date, about: About | None = None
) -> Iterator[tuple[Animal, Event, Protocol]]:
    """Animals that came within the days of their usual protocol, without a quarantine since."""
    book = ask.book
    last = book.latest(*CAME, on=on)
    asked = asked_about(book, about, on)
    now = standing_of(ask, on, asked)
    for animal_id in asked:
        came = [e for kind in CAME if (e := last[kind].get(animal_id)) is not None]
        if not came or animal_id in now.states or animal_id in now.troubles:
            continue
        newest = max(came, key=lambda e: e.order)
        protocol = protocols(ask)[default_protocol(ask, About(animal_id))]
        recent = newest.day > on - timedelta(days=protocol.days)
        if recent and needs_quarantine(newest, on) and not _since(ask, newest, animal_id, on):
            yield book.animals[animal_id], newest, protocol


def _since(ask: Ask, came: Event, animal_id: int, on: date) -> bool:
    """Whether a quarantine began with that coming or was running then."""
    return any(
        s.started >= came.day or s.release is None or s.release.day >= came.day
        for s in computable(ask, animal_id, on)
    )
