"""Lengths and masses that were taken together."""

from __future__ import annotations

from datetime import date

from warmside.api import Animal, Ask, Event
from warmside.plugins.weight.condition.condition import LengthMass, Taken
from warmside.plugins.weight.course.weights import Weights
from warmside.plugins.weight.reading.weights import whole

TOGETHER_DAYS = 7
"""A weight belongs to a length that was measured within so many days (common practice)."""


def pairs_of_species(ask: Ask, animal: Animal, on: date) -> dict[int, tuple[Taken, ...]]:
    """What was taken of each animal of the same species, by animal."""
    same = (a for a in ask.book.animals.values() if a.species.id == animal.species.id)
    return {a.id: pairs_of(ask, a, on) for a in same}


def pairs_of(ask: Ask, animal: Animal, on: date) -> tuple[Taken, ...]:
    """The animal's lengths, each with the nearest weight within TOGETHER_DAYS, meals taken off."""
    measured = ask.book.events("measured", animal=animal.id, until=on)
    lengths = [e for e in measured if e.data["snout_vent_mm"]]
    if not lengths:
        return ()
    weights = whole(ask, animal.id, on)
    found = (_paired(weights, e) for e in lengths)
    return tuple(taken for taken in found if taken is not None)


def _paired(weights: Weights, measured: Event) -> Taken | None:
    day = measured.day.toordinal()
    near = weights.course.weighings.between(day - TOGETHER_DAYS, day + TOGETHER_DAYS + 1)
    rows = zip(near.events, near.days, near.masses_g, strict=True)
    best = min(rows, key=lambda r: abs(int(r[1]) - day), default=None)
    if best is None:
        return None
    pair = LengthMass((measured.id, best[0]), measured.data["snout_vent_mm"], best[2])
    return Taken(measured.day, pair)
