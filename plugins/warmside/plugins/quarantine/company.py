"""Who shares an enclosure or a room with an animal in quarantine, and should not."""

from __future__ import annotations

from collections.abc import Collection, Iterator, Mapping
from dataclasses import dataclass

from warmside.api import Basis, Enclosure, Finding, Level, Source

MOST_NAMED = 3


@dataclass(frozen=True, slots=True)
class Place:
    """One animal here: its label, its enclosure, and the event that put it there."""

    label: str
    enclosure: Enclosure
    event_id: int


def company_findings(
    places: Mapping[int, Place], quarantined: Collection[int], sources: Mapping[int, Source]
) -> Iterator[Finding]:
    """Findings for each animal in quarantine that is not apart; all by animal id."""
    residents = [p for a, p in places.items() if a not in quarantined]
    for animal_id in quarantined:
        mine = places.get(animal_id)
        if mine is not None:
            yield from _of_one(animal_id, mine, residents, sources[animal_id])


def _of_one(
    animal_id: int, mine: Place, residents: list[Place], source: Source
) -> Iterator[Finding]:
    together = [r for r in residents if r.enclosure.id == mine.enclosure.id]
    if together:
        words = f"in quarantine, but in {mine.enclosure.code} with {_named(together)}"
        basis = Basis("quarantined animals live apart", source, _events(mine, together))
        yield Finding("quarantine.shared_enclosure", Level.ACT_NOW, words, basis, animal_id)
    room = mine.enclosure.room.strip().casefold()
    if not room:
        words = f"{mine.enclosure.code} has no room on record, so who shares its air is not known"
        hint = f"; say it: warmside enclosure change {mine.enclosure.code} --room ROOM"
        basis = Basis("a room shares its air", source, (mine.event_id,))
        yield Finding("quarantine.room_unknown", Level.NOTE, words + hint, basis, animal_id)
        return
    near = [r for r in residents if r.enclosure.room.strip().casefold() == room]
    near = [r for r in near if r not in together]
    if near:
        words = f"in quarantine, but in room {mine.enclosure.room} with {_named(near)}"
        basis = Basis("quarantined animals have a room of their own", source, _events(mine, near))
        yield Finding("quarantine.shared_room", Level.LOOK_SOON, words, basis, animal_id)


def _named(residents: list[Place]) -> str:
    labels = [r.label for r in residents]
    rest = len(labels) - MOST_NAMED
    return ", ".join(labels[:MOST_NAMED]) + (f" and {rest} more" if rest > 0 else "")


def _events(mine: Place, others: list[Place]) -> tuple[int, ...]:
    return (mine.event_id, *(o.event_id for o in others[:MOST_NAMED]))
