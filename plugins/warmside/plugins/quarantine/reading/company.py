"""Who lives and who was handled beside animals in quarantine."""

from __future__ import annotations

from collections.abc import Collection, Iterator, Mapping
from datetime import date, timedelta

from warmside.api import About, Ask, Book, Enclosure, Event, Source
from warmside.plugins.quarantine.clock.state import QuarantineState
from warmside.plugins.quarantine.contact.company import Company, Place, air_of, companies
from warmside.plugins.quarantine.contact.handling import Handling
from warmside.plugins.quarantine.kinds import CHECKED, RELEASED, SAMPLED
from warmside.plugins.quarantine.reading.standing import asked_about, candidates, standing
from warmside.plugins.quarantine.reading.wall_clock import wall_time

LOOK_BACK_DAYS = 7
ON_ANIMALS = ("weighed", "measured", "fed", "treated", "examined", SAMPLED, CHECKED)
ON_ENCLOSURES = ("cleaned", "watered")


def company(
    ask: Ask, on: date, about: About | None = None
) -> tuple[list[Company], dict[int, Source]]:
    """Who shares enclosure or room with animals in quarantine, and who wants these apart.

    With `about`, only those that share its air are looked at.
    """
    book = ask.book
    airs = _airs(book, candidates(book, on), on)
    if about is not None:
        airs &= _airs(book, asked_about(book, about, on), on)
    places = [p for p in _places(book, on) if air_of(p.enclosure) in airs] if airs else []
    states = standing(ask, on, [p.animal_id for p in places]).states
    sources = {a: s.protocol.sources["group"] for a, s in states.items()}
    return companies(places, states.keys()), sources


def _airs(book: Book, animals: Collection[int], on: date) -> set[str]:
    """The air that animals here breathe."""
    here = book.animals_here(on)
    homes = {here[a].enclosure_id for a in animals} - {None}
    return {air_of(book.enclosures[home]) for home in homes if home is not None}


def _places(book: Book, on: date) -> list[Place]:
    return [
        Place(a, book.animals[a].label, book.enclosures[w.enclosure_id], w.events[-1], w.since)
        for a, w in book.animals_here(on).items()
        if w.enclosure_id is not None
    ]


def met_in(ask: Ask, place: Enclosure, on: date, but: int) -> list[str]:
    """The labels of the animals in quarantine that share the air of an enclosure, but for one."""
    near = [p for p in _places(ask.book, on) if air_of(p.enclosure) == air_of(place)]
    states = standing(ask, on, [p.animal_id for p in near if p.animal_id != but]).states
    return [ask.book.animals[a].label for a in states]


def handlings(ask: Ask, on: date, about: About | None = None) -> list[Handling]:
    """Who was handled within the last week, as far as the time of day is on record.

    None while no animal is in quarantine or was released within the week, and none where the
    animals asked about were not handled.
    """
    book = ask.book
    since = on - timedelta(days=LOOK_BACK_DAYS - 1)
    released = book.latest(RELEASED, on=on)[RELEASED]
    if not candidates(book, on) and all(r.day < since for r in released.values()):
        return []
    touched = list(_touched(book, since, on))
    asked = asked_about(book, about, on)
    if not any(animal_id in asked for animal_id, _ in touched):
        return []
    states = standing(ask, on).states
    if not states and all(r.day < since for r in released.values()):
        return []
    return [
        Handling(
            animal_id,
            book.animals[animal_id].code,
            wall_time(event, book.home.zone),
            _in_quarantine(event, states.get(animal_id), released.get(animal_id)),
            event.id,
            animal_id in states and states[animal_id].suspect,
        )
        for animal_id, event in touched
    ]


def _touched(book: Book, since: date, on: date) -> Iterator[tuple[int, Event]]:
    """Each animal here that was touched; hands in an enclosure touch those that live in it."""
    occupants, here = book.occupants(on), book.animals_here(on)
    for event in book.events(*ON_ANIMALS, *ON_ENCLOSURES, since=since, until=on):
        if event.at is None:
            continue
        for animal_id in _handled(event, occupants):
            if animal_id in here:
                yield animal_id, event


def _handled(event: Event, occupants: Mapping[int, tuple[int, ...]]) -> tuple[int, ...]:
    if event.kind in ON_ENCLOSURES:
        return occupants.get(event.enclosure_id or 0, ())
    return () if event.animal_id is None else (event.animal_id,)


def _in_quarantine(event: Event, state: QuarantineState | None, released: Event | None) -> bool:
    if state is not None and state.started <= event.day:
        return True
    return released is not None and event.day <= released.day
