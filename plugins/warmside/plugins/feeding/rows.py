"""The queries of the plugin: its own tables, and the newest feeding events of many animals."""

from __future__ import annotations

import json
from collections import defaultdict
from collections.abc import Collection, Mapping
from datetime import date
from typing import Any

from sqlalchemy import Select, func, select

from warmside.core.book import Book
from warmside.core.tables import animal, event
from warmside.plugins.feeding import tables
from warmside.plugins.feeding.history import Served
from warmside.plugins.feeding.kinds import DUSTED
from warmside.plugins.feeding.order import Pack
from warmside.plugins.feeding.own import Own
from warmside.plugins.feeding.prey import known_prey
from warmside.plugins.feeding.records import Weighing
from warmside.plugins.feeding.stock import Lot
from warmside.plugins.feeding.stock_state import Came, Eaten, Settled, Thrown

# So many newest events of a kind are read for each animal, so that no plan grows with the years.
RECENT = 60


def newest(book: Book, kind: str, ids: Collection[int], on: date) -> list[Any]:
    """(animal, day, data, event) of the newest events of a kind up to a day."""
    return list(book.rows(_newest(kind, ids, on)))


def _newest(kind: str, ids: Collection[int], on: date) -> Select[Any]:
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


def own_feeding(book: Book) -> Mapping[int, Own]:
    """How single animals are fed, by animal."""
    c = tables.own.c
    columns = (c.interval_low, c.interval_high, c.percent_low, c.percent_high, c.prey, c.warm_hours)
    return {
        id: Own(
            (days_low, days_high) if days_low is not None else None,
            (low, high) if low is not None else None,
            tuple(prey.split(",")) if prey else (),
            hours,
        )
        for id, days_low, days_high, low, high, prey, hours in book.rows(
            select(c.animal_id, *columns)
        )
    }


def packs(book: Book) -> tuple[Pack, ...]:
    """The packs that the keeper can buy."""
    c = tables.pack.c
    return tuple(
        Pack(*r) for r in book.rows(select(c.prey, c.size, c.price).order_by(c.prey, c.size))
    )


def is_thawed(book: Book, day: date) -> bool:
    """Whether the prey for the round of a day was taken out of the freezer."""
    c = tables.thawed.c
    return bool(book.rows(select(c.day).where(c.day == day.isoformat())))


def came(book: Book) -> tuple[Came, ...]:
    """All lots as they came, by number."""
    c = tables.lot.c
    columns = (c.id, c.prey, c.count, c.since, c.frozen, c.each_g, c.price)
    return tuple(
        Came(
            Lot(id, prey, count, date.fromisoformat(frozen), each_g, price),
            date.fromisoformat(since),
        )
        for id, prey, count, since, frozen, each_g, price in book.rows(
            select(*columns).order_by(c.id)
        )
    )


def thrown(book: Book) -> tuple[Thrown, ...]:
    """What was thrown away."""
    c = tables.thrown.c
    rows = book.rows(select(c.day, c.lot, c.count).order_by(c.id))
    return tuple(Thrown(date.fromisoformat(day), lot, count) for day, lot, count in rows)


def settled(book: Book) -> Settled | None:
    """What was settled last."""
    c = tables.settled.c
    rows = book.rows(select(c.day, c.newest, c.left).order_by(c.id.desc()).limit(1))
    for day, newest_lot, left in rows:
        counts = {int(k): v for k, v in json.loads(left).items()}
        return Settled(date.fromisoformat(day), newest_lot, counts)
    return None


def eaten(book: Book, since: date, on: date, refused_is_used: bool) -> list[Eaten]:
    """Prey used by all animals after a day, summed by day; refused frozen prey where that is gone.

    A regurgitated meal is taken as the meal itself only where it was offered so; see `history`.
    """
    e = event.c
    item, outcome = (func.json_extract(e.data, f"$.{key}") for key in ("item", "outcome"))
    query = (
        select(e.day, item, outcome, func.sum(func.json_extract(e.data, "$.count")))
        .where(e.animal_id.in_(list(book.animals)), e.kind == "fed", e.replaced_by.is_(None))
        .where(e.day > since.isoformat(), e.day <= on.isoformat())
        .group_by(e.day, item, outcome)
    )
    found = []
    for day, name, came_of, count in book.rows(query):
        prey = known_prey(name)
        used = came_of != "refused" or (refused_is_used and prey is not None and prey.vertebrate)
        if prey is not None and used:
            found.append(Eaten(date.fromisoformat(day), prey.code, count))
    return found
