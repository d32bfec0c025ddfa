"""Who shares an enclosure or a room with an animal in quarantine, and should not."""

from __future__ import annotations

from collections.abc import Collection, Iterable
from datetime import date

from msgspec import Struct

from warmside.api import Enclosure


class Place(Struct, frozen=True):
    """One animal here: its label, its enclosure, the event that put it there, and its day."""

    animal_id: int
    label: str
    enclosure: Enclosure
    event_id: int
    since: date


class Company(Struct, frozen=True):
    """Animals in quarantine in one enclosure with the residents in it, or in its room besides."""

    enclosure: Enclosure
    quarantined: tuple[Place, ...]
    inside: tuple[Place, ...]
    in_room: tuple[Place, ...]


def air_of(enclosure: Enclosure) -> str:
    """What shares its air with the enclosure: its room; itself where no room is on record."""
    room = enclosure.room.strip().casefold()
    return f"room {room}" if room else f"enclosure {enclosure.id}"


def companies(places: Iterable[Place], quarantined: Collection[int]) -> list[Company]:
    """Each enclosure with an animal in quarantine, by the ids of those that are."""
    held: dict[int, list[Place]] = {}
    residents: dict[str, list[Place]] = {}
    for place in places:
        if place.animal_id in quarantined:
            held.setdefault(place.enclosure.id, []).append(place)
        else:
            residents.setdefault(air_of(place.enclosure), []).append(place)
    return [_company(here, residents.get(air_of(here[0].enclosure), [])) for here in held.values()]


def _company(held: list[Place], near: list[Place]) -> Company:
    here = held[0].enclosure
    inside = tuple(r for r in near if r.enclosure.id == here.id)
    return Company(here, tuple(held), inside, tuple(r for r in near if r.enclosure.id != here.id))
