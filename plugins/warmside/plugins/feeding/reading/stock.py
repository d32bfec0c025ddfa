"""Reading the stock: lots, what was thrown away, and what the recorded meals took."""

from __future__ import annotations

import json
from datetime import date, timedelta

from warmside.api import Ask, Book
from warmside.plugins.feeding.meals.history import COMES_BACK_DAYS, meals_of
from warmside.plugins.feeding.prey.classes import known_prey
from warmside.plugins.feeding.reading.meals import served_in
from warmside.plugins.feeding.reading.noted import food_said
from warmside.plugins.feeding.reading.whose import OF_THESE, whose
from warmside.plugins.feeding.stock.counting import (
    Came,
    Eaten,
    Settled,
    Thrown,
    left_of,
    settled_at,
    settling_day,
)
from warmside.plugins.feeding.stock.lots import Lot

# Meals after a day.
FED = (
    f"FROM event WHERE {OF_THESE} AND kind = 'fed' "
    "AND replaced_by IS NULL AND day > ? AND day <= ? AND json_extract(data, '$.outcome')"
)


def stock(ask: Ask, on: date) -> tuple[Lot, ...]:
    """The lots with what is left of each on a day, used up ones left out."""
    return ask.book.once(("feeding", "stock", on), lambda: _stock(ask, on))


def stocked(ask: Ask, on: date) -> frozenset[str]:
    """Codes of the food in stock."""
    return frozenset(lot.prey for lot in stock(ask, min(on, ask.book.today)))


def _stock(ask: Ask, on: date) -> tuple[Lot, ...]:
    book = ask.book
    lots = came(book)
    if not lots:
        return ()
    before = settled(book)
    left = left_of(lots, eaten(ask, _start(lots, before), on), thrown(book), before)
    return tuple(lot for lot in left if lot.count)


def to_settle(ask: Ask) -> Settled | None:
    """What may be settled today; None while nothing is old enough."""
    book = ask.book
    before, lots = settled(book), came(book)
    day = settling_day(book.today, before)
    if day is None or not lots:
        return None
    return settled_at(lots, eaten(ask, _start(lots, before), day), thrown(book), day, before)


def _start(lots: tuple[Came, ...], before: Settled | None) -> date:
    """The day after which meals matter: settled, and never before the first lot came."""
    first = min(c.since for c in lots) - timedelta(days=1)
    return max(first, before.day) if before else first


def came(book: Book) -> tuple[Came, ...]:
    """All lots as they came, by number."""
    rows = book.rows(
        "SELECT id, prey, count, since, frozen, each_g, price FROM feeding_lot ORDER BY id"
    )
    return tuple(
        Came(
            Lot(id, prey, count, date.fromisoformat(frozen), each_g, price),
            date.fromisoformat(since),
        )
        for id, prey, count, since, frozen, each_g, price in rows
    )


def thrown(book: Book) -> tuple[Thrown, ...]:
    """What was thrown away."""
    rows = book.rows("SELECT day, lot, count FROM feeding_thrown ORDER BY id")
    return tuple(Thrown(date.fromisoformat(day), lot, count) for day, lot, count in rows)


def settled(book: Book) -> Settled | None:
    """What was settled last."""
    rows = book.rows('SELECT day, newest, "left" FROM feeding_settled ORDER BY id DESC LIMIT 1')
    for day, newest_lot, left in rows:
        counts = {int(k): v for k, v in json.loads(left).items()}
        return Settled(date.fromisoformat(day), newest_lot, counts)
    return None


def eaten(ask: Ask, since: date, on: date) -> list[Eaten]:
    """Prey used by all animals after a day, by day; refused frozen prey too where that is gone."""
    rows = ask.book.rows(
        "SELECT day, json_extract(data, '$.item'), json_extract(data, '$.outcome'), "
        f"sum(json_extract(data, '$.count')) {FED} != 'regurgitated' GROUP BY 1, 2, 3",
        [whose(ask.book, "fed", on), since.isoformat(), on.isoformat()],
    )
    gone = bool(ask.setting("feeding", "refused_is_used"))
    used = [
        Eaten(date.fromisoformat(day), prey.code, count)
        for day, name, came_of, count in rows
        if (prey := known_prey(food_said(ask.book, name)))
        and (came_of != "refused" or (gone and prey.frozen))
    ]
    return used + _came_back(ask.book, since, on)


def _came_back(book: Book, since: date, on: date) -> list[Eaten]:
    """Regurgitated meals; not the records that are about a meal recorded before."""
    asked = [whose(book, "fed", on), since.isoformat(), on.isoformat()]
    rows = book.rows(f"SELECT id, animal_id, day {FED} = 'regurgitated'", asked)
    return [e for id, animal_id, day in rows for e in _as_meal(book, id, animal_id, day)]


def _as_meal(book: Book, id: int, animal_id: int, day: str) -> list[Eaten]:
    until = date.fromisoformat(day)
    near = book.events(
        "fed", animal=animal_id, since=until - timedelta(days=COMES_BACK_DAYS), until=until
    )
    offers = meals_of([served_in(book, e) for e in near], {}).offers
    return [
        Eaten(o.day, prey.code, o.count)
        for o in offers
        if o.event == id and (prey := known_prey(o.prey))
    ]
