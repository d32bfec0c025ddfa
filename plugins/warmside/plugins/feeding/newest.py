"""The newest feeding events and weighings of many animals at once, each animal by its index."""

from __future__ import annotations

import json
from collections import defaultdict
from collections.abc import Collection, Mapping
from datetime import date
from typing import Any

from sqlalchemy import Select, select

from warmside.core.book import Book
from warmside.core.record import Event
from warmside.core.tables import animal, event
from warmside.plugins.feeding.history import Served
from warmside.plugins.feeding.kinds import DUSTED

# So many newest events of a kind are read for each animal, so that no plan grows with the years.
RECENT = 40


def newest(book: Book, kind: str, ids: Collection[int], on: date) -> list[Any]:
    """(animal, day, data, event) of the newest events of a kind up to a day."""
    return list(book.rows(_newest(kind, ids, on)))


def _newest(kind: str, ids: Collection[int], on: date) -> Select[*tuple[Any, ...]]:
    e, x = event.c, event.alias("x").c
    last = (
        select(x.id)
        .where(x.animal_id == animal.c.id, x.kind == kind, x.replaced_by.is_(None))
        .where(x.day <= on.isoformat())
        .order_by(x.day.desc(), x.at.desc(), x.id.desc())
        .limit(RECENT)
        .correlate(animal)
    )
    return (
        select(e.animal_id, e.day, e.data, e.id)
        .select_from(animal.join(event, e.id.in_(last)))
        .where(animal.c.id.in_(ids))
    )


def served(book: Book, ids: Collection[int], on: date) -> Mapping[int, list[Served]]:
    """The newest feeding events of animals up to a day."""
    found = defaultdict[int, list[Served]](list)
    for animal_id, day, data, id in newest(book, "fed", ids, on):
        found[animal_id].append(_served(date.fromisoformat(day), json.loads(data), id))
    return found


def served_in(fed: Event) -> Served:
    """What a feeding event says was served."""
    return _served(fed.day, fed.data, fed.id)


def _served(day: date, told: Mapping[str, Any], id: int) -> Served:
    return Served(day, told["item"], told["count"], told["mass_g"], told["outcome"], id)


def dusted(book: Book, ids: Collection[int], on: date) -> Mapping[int, Mapping[date, list[str]]]:
    """The powders of each day, by animal."""
    found = defaultdict[int, dict[date, list[str]]](dict)
    for animal_id, day, data, _ in sorted(newest(book, DUSTED, ids, on), key=lambda r: r[3]):
        powders = found[animal_id].setdefault(date.fromisoformat(day), [])
        powders.append(json.loads(data)["powder"])
    return found
