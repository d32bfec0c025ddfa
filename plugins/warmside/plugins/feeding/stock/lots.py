"""Prey in the freezer: lots, what a meal takes from them, what runs short or gets old."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from datetime import date

from msgspec import Struct
from msgspec.structs import replace

from warmside.api import BadInput, Basis, counted
from warmside.plugins.feeding.care.rules import Rules
from warmside.plugins.feeding.prey.classes import prey_named


class Lot(Struct, frozen=True):
    """So many items of a prey class, bought or frozen on a day; the price is of one item."""

    id: int
    prey: str
    count: int
    day: date
    each_g: float | None = None
    price: float | None = None


class Taking(Struct, frozen=True):
    """What a meal takes: (lot id, count) oldest first, what is missing, and the cost if known."""

    parts: tuple[tuple[int, int], ...]
    missing: int
    cost: float | None


class StockFinding(Struct, frozen=True):
    """Something about the stock: `short` or `old`."""

    code: str
    prey: str
    words: str
    basis: Basis


def check_lot(lot: Lot) -> Lot:
    """The lot, or BadInput for a class, count, mass or price that cannot be."""
    prey = prey_named(lot.prey)
    if lot.count < 0:
        raise BadInput(f"{lot.count} × {prey.name} in stock cannot be; give 0 or more")
    if lot.each_g is not None and not 0 < lot.each_g <= 10 * prey.mass_g[1]:
        raise BadInput(f"{lot.each_g:g} g for one {prey.name}; weigh one and give its mass")
    if lot.price is not None and lot.price < 0:
        raise BadInput(f"price {lot.price:g} is negative; give 0 or more")
    return replace(lot, prey=prey.code)


def on_hand(lots: Sequence[Lot]) -> Mapping[str, int]:
    """Items in stock by class."""
    counts = dict[str, int]()
    for lot in lots:
        counts[lot.prey] = counts.get(lot.prey, 0) + check_lot(lot).count
    return counts


def take(lots: Sequence[Lot], prey: str, count: int) -> Taking:
    """Take so many items of a class, oldest lot first; what is not there is `missing`."""
    if count < 0:
        raise BadInput(f"cannot take {count} items; give 0 or more")
    code, parts, left = prey_named(prey).code, list[tuple[int, int]](), count
    costs = list[float | None]()
    for lot in sorted((lot for lot in lots if lot.prey == code), key=lambda lot: (lot.day, lot.id)):
        taken = min(left, check_lot(lot).count)
        if taken:
            parts.append((lot.id, taken))
            costs.append(None if lot.price is None else taken * lot.price)
            left -= taken
    known = [c for c in costs if c is not None]
    cost = sum(known) if len(known) == len(costs) and not left else None
    return Taking(tuple(parts), left, cost)


def shortages(
    lots: Sequence[Lot], needed: Mapping[str, int], weeks: int
) -> tuple[StockFinding, ...]:
    """Classes of which the planned meals of some weeks need more than is there."""
    have = on_hand(lots)
    return tuple(
        StockFinding(
            "short",
            code,
            f"{have.get(code, 0)} × {prey_named(code).name} in stock, "
            f"{count} planned within {counted(weeks, 'week')}",
            Basis(f"planned meals of {counted(weeks, 'week')} less the stock"),
        )
        for code, count in needed.items()
        if count > have.get(code, 0)
    )


def ages(lots: Sequence[Lot], day: date, rules: Rules) -> tuple[StockFinding, ...]:
    """Lots that have been frozen for longer than the rule allows, oldest first."""
    old = [lot for lot in lots if lot.count and (day - lot.day).days > rules.freezer_days]
    return tuple(
        StockFinding(
            "old",
            lot.prey,
            f"{lot.count} × {prey_named(lot.prey).name} frozen since {lot.day.isoformat()}, "
            f"{(day - lot.day).days} days: use first or throw away",
            rules.basis("freezer_days"),
        )
        for lot in sorted(old, key=lambda lot: lot.day)
    )
