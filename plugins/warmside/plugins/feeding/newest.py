"""The newest feeding events and weighings of many animals at once, each animal by its index."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Collection, Mapping
from datetime import date
from typing import Any

from warmside.api import Book, Event
from warmside.plugins.feeding.history import Served
from warmside.plugins.feeding.kinds import DUSTED

# So many newest events of a kind are read for each animal, so that no plan grows with the years.
RECENT = 40


def served(book: Book, ids: Collection[int], on: date) -> Mapping[int, list[Served]]:
    """The newest feeding events of animals up to a day."""
    found = defaultdict[int, list[Served]](list)
    for animal_id, day, data, id in book.newest("fed", ids, on, RECENT):
        found[animal_id].append(_served(day, data, id))
    return found


def served_in(fed: Event) -> Served:
    """What a feeding event says was served."""
    return _served(fed.day, fed.data, fed.id)


def _served(day: date, told: Mapping[str, Any], id: int) -> Served:
    return Served(day, told["item"], told["count"], told["mass_g"], told["outcome"], id)


def dusted(book: Book, ids: Collection[int], on: date) -> Mapping[int, Mapping[date, list[str]]]:
    """The powders of each day, by animal."""
    found = defaultdict[int, dict[date, list[str]]](dict)
    for animal_id, day, data, _ in sorted(book.newest(DUSTED, ids, on, RECENT), key=lambda r: r[3]):
        found[animal_id].setdefault(day, []).append(data["powder"])
    return found
