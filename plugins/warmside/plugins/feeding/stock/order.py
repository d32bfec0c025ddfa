"""What to buy: the planned meals of all animals less the stock, in packs, with the cost."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence

from msgspec import Struct

from warmside.api import BadInput
from warmside.plugins.feeding.planning.forecast import Forecast
from warmside.plugins.feeding.prey.classes import prey_classes, prey_named
from warmside.plugins.feeding.stock.lots import Lot, on_hand


class Pack(Struct, frozen=True):
    """Prey is sold in packs of `size` items; the price is of the pack."""

    prey: str
    size: int
    price: float | None = None


class OrderLine(Struct, frozen=True):
    """One class: items planned, in stock, short, bought as (pack, how many), the cost if known."""

    prey: str
    planned: int
    stock: int
    short: int
    packs: tuple[tuple[Pack, int], ...]
    bought: int
    cost: float | None


class Order(Struct, frozen=True):
    """All classes to buy or not, the cost of what has a price, and the reasoning per animal."""

    lines: tuple[OrderLine, ...]
    cost: float
    unpriced: tuple[str, ...]
    animals: tuple[Forecast, ...]


def check_pack(pack: Pack) -> Pack:
    """The pack, or BadInput for a size or price that cannot be."""
    prey = prey_named(pack.prey)
    if pack.size < 1:
        raise BadInput(f"a pack of {pack.size} × {prey.name}; give a pack size of 1 or more")
    if pack.price is not None and pack.price < 0:
        raise BadInput(f"price {pack.price:g} of a pack is negative; give 0 or more")
    return Pack(prey.code, pack.size, pack.price)


def planned_counts(animals: Iterable[Forecast]) -> Mapping[str, int]:
    """Items by class that the planned meals need, in the order of the prey table."""
    counts = dict.fromkeys(prey_classes(), 0)
    for animal in animals:
        for meal in animal.meals:
            counts[meal.prey] += 0 if weighed(meal.prey) else meal.count
    return {code: count for code, count in counts.items() if count}


def weighed(code: str) -> bool:
    """Food that is given by weight, which no pack of items counts."""
    return prey_named(code).weighed


def order(animals: Sequence[Forecast], lots: Sequence[Lot], packs: Sequence[Pack]) -> Order:
    """The order. A class without a pack is bought singly and has no price."""
    have, offered = on_hand(lots), _by_prey(packs)
    lines = tuple(
        _line(code, count, have.get(code, 0), offered.get(code, ()))
        for code, count in planned_counts(animals).items()
    )
    unpriced = tuple(line.prey for line in lines if line.bought and line.cost is None)
    cost = sum(line.cost for line in lines if line.cost is not None)
    return Order(lines, cost, unpriced, tuple(animals))


def cheapest(short: int, packs: Sequence[Pack]) -> tuple[tuple[Pack, int], ...]:
    """The packs that cover a need at the least cost; without prices with the least left over.

    Among equals the fewer items, then the fewer packs. Exact, by the best way to each count.
    """
    priced = all(pack.price is not None for pack in packs)
    best: list[tuple[float, int, int]] = [(0.0, 0, 0)]
    chosen: list[Pack | None] = [None]
    for need in range(1, short + 1):
        ways = [(_added(best[max(0, need - p.size)], p, priced), p) for p in packs]
        way, pack = min(ways, key=lambda w: w[0])
        best.append(way)
        chosen.append(pack)
    return _walked_back(short, chosen)


def _added(way: tuple[float, int, int], pack: Pack, priced: bool) -> tuple[float, int, int]:
    cost, items, count = way
    price = round(cost + (pack.price or 0.0), 6) if priced else 0.0
    return price, items + pack.size, count + 1


def _walked_back(short: int, chosen: Sequence[Pack | None]) -> tuple[tuple[Pack, int], ...]:
    counts, need = dict[Pack, int](), short
    while need > 0 and (pack := chosen[need]):
        counts[pack] = counts.get(pack, 0) + 1
        need -= pack.size
    return tuple(sorted(counts.items(), key=lambda c: -c[0].size))


def _line(code: str, planned: int, stock: int, packs: Sequence[Pack]) -> OrderLine:
    short = max(0, planned - stock)
    chosen = cheapest(short, packs or (Pack(code, 1),))
    bought = sum(pack.size * n for pack, n in chosen)
    prices = [None if pack.price is None else pack.price * n for pack, n in chosen]
    known = [p for p in prices if p is not None]
    cost = sum(known) if len(known) == len(prices) else None
    return OrderLine(code, planned, stock, short, chosen, bought, cost)


def _by_prey(packs: Sequence[Pack]) -> Mapping[str, tuple[Pack, ...]]:
    found = dict[str, tuple[Pack, ...]]()
    for pack in map(check_pack, packs):
        found[pack.prey] = (*found.get(pack.prey, ()), pack)
    return found
