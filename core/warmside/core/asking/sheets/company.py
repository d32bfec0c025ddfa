"""Whom an animal is with: its enclosure, its room, newcomers and deaths of the last year."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date

from warmside.core.answers.parts import Words
from warmside.core.asking.ask import Ask
from warmside.core.record.entities import Animal
from warmside.core.values.counts import counted

CAME = ("arrived", "returned")
MOST_NAMED = 5


def company(ask: Ask, animal: Animal, since: date, on: date) -> tuple[Words, ...]:
    """Whom it shares enclosure and room with; who came and who died."""
    return (Words(_mates(ask, animal, on)), Words("; ".join(_changes(ask, since, on))))


def _mates(ask: Ask, animal: Animal, on: date) -> str:
    here = ask.book.animals_here(on)
    home = ask.book.whereabouts(on)[animal.id].enclosure_id
    others = {a: w.enclosure_id for a, w in here.items() if a != animal.id}
    with_it = [a for a, place in others.items() if place == home and home is not None]
    room = ask.book.enclosures[home].room if home is not None else ""
    near = [a for a, p in others.items() if p and room and ask.book.enclosures[p].room == room]
    alone = f"shares its enclosure with {_named(ask, with_it)}" if with_it else "lives alone"
    in_room = f"; {counted(len(near), 'other animal')} in the room" if near else ""
    return f"{alone}{in_room}; {counted(len(here), 'animal')} in all"


def _changes(ask: Ask, since: date, on: date) -> Iterator[str]:
    """Who came and who died within the span; that nobody did is told, too."""
    came = ask.book.events(*CAME, since=since, until=on)
    died = ask.book.events("died", since=since, until=on)
    for events, none, some in (
        (came, "no newcomer within a year", "came within a year"),
        (died, "no death within a year", "died within a year"),
    ):
        said = [f"{_species(ask, e.animal_id)} on {e.day}" for e in events if e.animal_id]
        more = f" and {len(said) - MOST_NAMED} more" if len(said) > MOST_NAMED else ""
        yield f"{some}: {'; '.join(said[-MOST_NAMED:])}{more}" if said else none


def _named(ask: Ask, animals: list[int]) -> str:
    return ", ".join(_species(ask, a) for a in animals)


def _species(ask: Ask, animal: int) -> str:
    found = ask.book.animals[animal]
    return f"{found.label}, {found.species.common or found.species.scientific}"
