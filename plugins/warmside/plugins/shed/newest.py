"""The newest events of sheds of many animals at once, so that no round grows with the years."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Collection, Iterable, Mapping
from dataclasses import dataclass
from datetime import date
from typing import Any

from warmside.api import Book, Event

# So many newest events of a kind are read for each animal: more than three cycles in the months
# for which doubts stand, even where every day of a stage is noted.
RECENT = 24


@dataclass(frozen=True, slots=True)
class Noted:
    """What one event says: its kind, local day, data, and its id."""

    kind: str
    day: date
    data: Mapping[str, Any]
    event: int


def noted(found: Event) -> Noted:
    """What an event says."""
    return Noted(found.kind, found.day, found.data, found.id)


def newest(
    book: Book, kinds: Iterable[str], ids: Collection[int], on: date
) -> Mapping[int, list[Noted]]:
    """The newest events of each kind up to a day, by animal; only of those that have any."""
    found = defaultdict[int, list[Noted]](list)
    for kind in kinds:
        for animal_id, day, data, id in book.newest(kind, ids, on, RECENT):
            found[animal_id].append(Noted(kind, day, data, id))
    return found
