"""What the keeper noted in the plugin's tables: single animals' feeding, packs, thawed rounds."""

from __future__ import annotations

from collections.abc import Mapping
from datetime import date

from warmside.api import Book
from warmside.plugins.feeding.care.own import Own
from warmside.plugins.feeding.stock.order import Pack


def own_feeding(book: Book) -> Mapping[int, Own]:
    """How single animals are fed, by animal."""
    return book.once(("feeding", "own"), lambda: _own_feeding(book))


def _own_feeding(book: Book) -> Mapping[int, Own]:
    rows = book.rows(
        "SELECT animal_id, interval_low, interval_high, percent_low, percent_high, prey, "
        "warm_hours FROM feeding_own"
    )
    return {
        id: Own(
            (days_low, days_high) if days_low is not None else None,
            (low, high) if low is not None else None,
            tuple(prey.split(",")) if prey else (),
            hours,
        )
        for id, days_low, days_high, low, high, prey, hours in rows
    }


def packs(book: Book) -> tuple[Pack, ...]:
    """The packs that the keeper can buy."""
    rows = book.rows("SELECT prey, size, price FROM feeding_pack ORDER BY prey, size")
    return tuple(Pack(*r) for r in rows)


def is_thawed(book: Book, day: date) -> bool:
    """Whether the prey for the round of a day was taken out of the freezer."""
    return bool(book.rows("SELECT day FROM feeding_thawed WHERE day = ?", [day.isoformat()]))
