"""Reading the plugin's tables but the stock: single animals' feeding, packs, thawed rounds."""

from __future__ import annotations

from collections.abc import Mapping
from datetime import date

from sqlalchemy import select

from warmside.api import Book
from warmside.plugins.feeding import tables
from warmside.plugins.feeding.order import Pack
from warmside.plugins.feeding.own import Own


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
