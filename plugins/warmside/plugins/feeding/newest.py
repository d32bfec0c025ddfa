"""The newest feeding events and weighings of many animals at once, each animal by its index."""

from __future__ import annotations

import json
from collections import defaultdict
from collections.abc import Collection, Mapping
from datetime import date
from typing import Any

from sqlalchemy import Select, select

from warmside.core.book import Book
from warmside.core.tables import animal, event
from warmside.plugins.feeding.history import Served
from warmside.plugins.feeding.kinds import DUSTED
from warmside.plugins.feeding.records import Weighing

# So many newest events of a kind are read for each animal, so that no plan grows with the years.
RECENT = 60


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
        told = json.loads(data)
        found[animal_id].append(
            Served(
                date.fromisoformat(day),
                told["item"],
                told["count"],
                told["mass_g"],
                told["outcome"],
                id,
            )
        )
    return found


def dusted(book: Book, ids: Collection[int], on: date) -> Mapping[int, Mapping[date, list[str]]]:
    """The powders of each day, by animal."""
    found = defaultdict[int, dict[date, list[str]]](dict)
    for animal_id, day, data, _ in sorted(newest(book, DUSTED, ids, on), key=lambda r: r[3]):
        powders = found[animal_id].setdefault(date.fromisoformat(day), [])
        powders.append(json.loads(data)["powder"])
    return found


def weighings(book: Book, animal_id: int, on: date) -> tuple[Weighing, ...]:
    """The newest weighings of an animal up to a day, oldest first."""
    rows = newest(book, "weighed", [animal_id], on)
    found = [Weighing(date.fromisoformat(d), json.loads(t)["mass_g"], id) for _, d, t, id in rows]
    return tuple(sorted(found, key=lambda w: (w.day, w.event)))
