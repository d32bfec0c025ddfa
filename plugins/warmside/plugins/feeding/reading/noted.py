"""What the keeper noted in the plugin's tables: single animals' feeding, packs, thawed rounds."""

from __future__ import annotations

from collections.abc import Mapping
from datetime import date

from warmside.api import Book
from warmside.plugins.feeding.care.own import Own
from warmside.plugins.feeding.care.own_diet import OwnPart
from warmside.plugins.feeding.prey.words import plain
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


def own_diets(book: Book) -> Mapping[tuple[str, int], tuple[OwnPart, ...]]:
    """The diets that the keeper set, by ("animal" or "species", id)."""
    return book.once(("feeding", "diets"), lambda: _own_diets(book))


def _own_diets(book: Book) -> Mapping[tuple[str, int], tuple[OwnPart, ...]]:
    found = dict[tuple[str, int], tuple[OwnPart, ...]]()
    for animal_id, species_id, diet, part, foods, *spans in book.rows(
        "SELECT animal_id, species_id, diet, part, foods, days_low, days_high, percent_low, "
        "percent_high FROM feeding_part ORDER BY id"
    ):
        of = ("species", species_id) if animal_id is None else ("animal", animal_id)
        days, percent = _span(*spans[:2]), _span(*spans[2:])
        own = OwnPart(part, diet, tuple(foods.split(",")) if foods else (), days, percent)
        found[of] = (*found.get(of, ()), own)
    return found


def _span(low: float | None, high: float | None) -> tuple[float, float] | None:
    return None if low is None or high is None else (low, high)


def own_words(book: Book) -> Mapping[str, str]:
    """The keeper's words for food: the class of each, empty for what is no class."""
    rows = "SELECT word, prey FROM feeding_word ORDER BY word"
    return book.once(("feeding", "words"), lambda: dict(book.rows(rows)))


def food_said(book: Book, item: str) -> str:
    """The class that the keeper's own word stands for; else what was recorded, as it is."""
    return own_words(book).get(plain(item)) or item


def packs(book: Book) -> tuple[Pack, ...]:
    """The packs that the keeper can buy."""
    rows = book.rows("SELECT prey, size, price FROM feeding_pack ORDER BY prey, size")
    return tuple(Pack(*r) for r in rows)


def is_thawed(book: Book, day: date) -> bool:
    """Whether the prey for the round of a day was taken out of the freezer."""
    return bool(book.rows("SELECT day FROM feeding_thawed WHERE day = ?", [day.isoformat()]))


def is_gut_loaded(book: Book, day: date) -> bool:
    """Whether the live feeders for the round of a day were fed well."""
    sql = "SELECT day FROM feeding_gut_loaded WHERE day = ?"
    return bool(book.rows(sql, [day.isoformat()]))
