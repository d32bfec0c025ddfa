"""The animals of pairs that do not hold their gates."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date, timedelta
from enum import IntEnum

from warmside.api import Animal, Ask, Event
from warmside.plugins.lineage.reading.season import fitness, limits_of, meant
from warmside.plugins.lineage.season.gates import Gate, failed, gates

TOLD_DAYS = 60
"""For so long after a mating it is told that one of the pair was not fit for it."""


class Mating(IntEnum):
    """How far the pair of an animal is, the most pressing last."""

    LIVES_WITH = 0  # a grown mate in its enclosure
    WAS_PAIRED = 1
    IS_MEANT = 2


def unfit_animals(ask: Ask, on: date) -> Iterator[tuple[Animal, tuple[Gate, ...], Mating]]:
    """Each once, with the gates that it fails, and how far its pair is."""
    book, planned, mated = ask.book, meant(ask, on), _mated(ask, on)
    seen: dict[int, Mating] = {}
    for pair in ask.pairs(on):
        dam, sire = int(pair.first.animal_id or 0), int(pair.second.animal_id or 0)
        how = Mating.IS_MEANT if (dam, sire) in planned else Mating.LIVES_WITH
        if (day := mated.get(frozenset((dam, sire)))) is not None:
            late = (on - day).days > TOLD_DAYS
            if late and not _together(ask, dam, sire, on):
                continue
            how = Mating.LIVES_WITH if late else Mating.WAS_PAIRED
        for id in (dam, sire):
            seen[id] = max(seen.get(id, how), how)
    for id, how in seen.items():
        animal = book.animals[id]
        if found := gates_failed(ask, animal, on):
            yield animal, found, how


def _together(ask: Ask, dam: int, sire: int, on: date) -> bool:
    """Whether both live in one enclosure."""
    here = ask.book.animals_here(on)
    homes = {here[id].enclosure_id if id in here else None for id in (dam, sire)}
    return len(homes) == 1 and None not in homes


def _mated(ask: Ask, on: date) -> dict[frozenset[int | None], date]:
    """The last mating of each pair that was seen to mate since it was planned or put together."""
    found: dict[frozenset[int | None], date] = {}
    since = on - timedelta(days=365)
    events = [
        *ask.book.events("pairing", since=since, until=on),
        *ask.book.events("mated", since=since, until=on),
    ]
    for event in sorted(events, key=lambda e: e.order):
        pair = frozenset((event.animal_id, event.data.get("partner_animal_id")))
        found.pop(pair, None)
        if event.kind == "mated":
            found[pair] = event.day
    return found


def gates_failed(ask: Ask, animal: Animal, on: date) -> tuple[Gate, ...]:
    """The gates that an animal fails; none of a female that carries eggs already."""
    who = fitness(ask, animal, on)
    if who.carries:
        return ()
    return failed(gates(who, limits_of(ask, animal), ask.book.home.display, on))


def planned_meetings(ask: Ask, on: date) -> Iterator[Event]:
    """The newest planned pairing of each pair that is still to meet on a day that was named."""
    last: dict[frozenset[int | None], Event] = {}
    for event in ask.book.events("pairing", since=on - timedelta(days=365), until=on):
        pair = frozenset((event.animal_id, event.data["partner_animal_id"]))
        last.pop(pair, None)
        last[pair] = event
    mated = {
        frozenset((e.animal_id, e.data.get("partner_animal_id"))): e.order
        for e in ask.book.events("mated", since=on - timedelta(days=365), until=on)
    }
    pairs = {frozenset((p.first.animal_id, p.second.animal_id)) for p in ask.pairs(on)}
    for pair, event in last.items():
        over = pair not in pairs or (pair in mated and mated[pair] > event.order)
        if event.data["state"] == "planned" and event.data.get("begin") and not over:
            yield event
