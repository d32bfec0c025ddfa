"""The animals of pairs that do not hold their gates."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date, timedelta

from warmside.api import Animal, Ask, Event
from warmside.plugins.lineage.reading.season import fitness, limits_of, meant
from warmside.plugins.lineage.season.gates import Gate, failed, gates


def unfit_animals(ask: Ask, on: date) -> Iterator[tuple[Animal, tuple[Gate, ...], bool]]:
    """Each once, with the gates that it fails, and whether its pair is meant to be one."""
    book, planned = ask.book, meant(ask, on)
    seen: dict[int, bool] = {}
    for pair in ask.pairs(on):
        dam, sire = int(pair.first.animal_id or 0), int(pair.second.animal_id or 0)
        for id in (dam, sire):
            seen[id] = seen.get(id, False) or (dam, sire) in planned
    for id, is_meant in seen.items():
        animal = book.animals[id]
        if found := gates_failed(ask, animal, on):
            yield animal, found, is_meant


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
