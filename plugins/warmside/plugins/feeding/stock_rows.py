"""Reading the stock: lots, what was thrown away, and what the recorded meals took."""

from __future__ import annotations

import json
from datetime import date, timedelta

from sqlalchemy import ColumnElement, func, select

from warmside.api import Book
from warmside.core.record.tables import event
from warmside.plugins.feeding import tables
from warmside.plugins.feeding.history import COMES_BACK_DAYS, meals_of
from warmside.plugins.feeding.newest import served_in
from warmside.plugins.feeding.prey import known_prey
from warmside.plugins.feeding.stock import Lot
from warmside.plugins.feeding.stock_state import (
    Came,
    Eaten,
    Settled,
    Thrown,
    left_of,
    settled_at,
    settling_day,
)


def stock(book: Book, on: date) -> tuple[Lot, ...]:
    """The lots with what is left of each on a day, used up ones left out."""
    lots = came(book)
    if not lots:
        return ()
    before = settled(book)
    left = left_of(lots, eaten(book, _start(lots, before), on), thrown(book), before)
    return tuple(lot for lot in left if lot.count)


def to_settle(book: Book) -> Settled | None:
    """What may be settled today; None while nothing is old enough."""
    before, lots = settled(book), came(book)
    day = settling_day(book.today, before)
    if day is None or not lots:
        return None
    return settled_at(lots, eaten(book, _start(lots, before), day), thrown(book), day, before)


def _start(lots: tuple[Came, ...], before: Settled | None) -> date:
    """The day after which meals matter: settled, and never before the first lot came."""
    first = min(c.since for c in lots) - timedelta(days=1)
    return max(first, before.day) if before else first


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


def eaten(book: Book, since: date, on: date) -> list[Eaten]:
    """Prey used by all animals after a day, by day; refused frozen prey too where that is gone."""
    item, outcome = _told("item"), _told("outcome")
    c = event.c
    query = (
        select(c.day, item, outcome, func.sum(_told("count")))
        .where(*_fed(book, since, on), outcome != "regurgitated")
        .group_by(c.day, item, outcome)
    )
    gone = bool(book.setting("feeding", "refused_is_used"))
    used = [
        Eaten(date.fromisoformat(day), prey.code, count)
        for day, name, came_of, count in book.rows(query)
        if (prey := known_prey(name)) and (came_of != "refused" or (gone and prey.vertebrate))
    ]
    return used + _came_back(book, since, on)


def _came_back(book: Book, since: date, on: date) -> list[Eaten]:
    """Regurgitated meals; not the records that are about a meal recorded before."""
    c = event.c
    query = select(c.id, c.animal_id, c.day).where(
        *_fed(book, since, on), _told("outcome") == "regurgitated"
    )
    return [
        e for id, animal_id, day in book.rows(query) for e in _as_meal(book, id, animal_id, day)
    ]


def _as_meal(book: Book, id: int, animal_id: int, day: str) -> list[Eaten]:
    until = date.fromisoformat(day)
    near = book.events(
        "fed", animal=animal_id, since=until - timedelta(days=COMES_BACK_DAYS), until=until
    )
    offers = meals_of([served_in(e) for e in near], {}).offers
    return [
        Eaten(o.day, prey.code, o.count)
        for o in offers
        if o.event == id and (prey := known_prey(o.prey))
    ]


def _told(key: str) -> ColumnElement[str]:
    return func.json_extract(event.c.data, f"$.{key}")


def _fed(book: Book, since: date, on: date) -> tuple[ColumnElement[bool], ...]:
    """Feeding events after a day; named by animal, so that their index is used."""
    c = event.c
    return (
        c.animal_id.in_(list(book.animals)),
        c.kind == "fed",
        c.replaced_by.is_(None),
        c.day > since.isoformat(),
        c.day <= on.isoformat(),
    )
