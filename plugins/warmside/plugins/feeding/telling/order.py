"""An order as an answer: what to buy, in packs, and the reasoning by animal."""

from __future__ import annotations

from collections.abc import Sequence

from warmside.api import Answer, Cell, Column, Fact, Kind, Table, Unit, Words, counted
from warmside.plugins.feeding.planning.forecast import Forecast
from warmside.plugins.feeding.prey.classes import prey_named
from warmside.plugins.feeding.stock.order import Order, OrderLine, Pack, weighed

COLUMNS = (
    Column("prey", "prey", Kind.CODE, text=False),
    Column("name", "prey"),
    Column("planned", "items planned", Unit.COUNT),
    Column("stock", "in stock", Unit.COUNT),
    Column("short", "short", Unit.COUNT),
    Column("packs", "buy"),
    Column("bought", "items bought", Unit.COUNT),
    Column("cost", "cost", Unit.MONEY),
)
ANIMAL_COLUMNS = (
    Column("animal", "who"),
    Column("meals", "meals", Unit.COUNT),
    Column("items", "items", Unit.COUNT),
    Column("words", "why"),
)


def told(found: Order, weeks: int) -> Answer:
    """The order as an answer."""
    rows = tuple(_row(line) for line in found.lines)
    animals = tuple((f.name, f.times, _items(f), f.words) for f in found.animals)
    open_prices = [prey_named(code).name for code in found.unpriced]
    priced = not open_prices or any(x.bought and x.cost is not None for x in found.lines)
    cost = found.cost if priced else None
    notes = [Words(f"no price for: {', '.join(open_prices)}")] if open_prices else []
    return Answer(
        f"Order for {counted(weeks, 'week')}",
        (
            Table("lines", COLUMNS, rows, empty="no meal is planned", ticks=True),
            Fact("cost", "cost of what has a price", cost, Unit.MONEY, missing="nothing has one"),
            *notes,
            Table("animals", ANIMAL_COLUMNS, animals, "Planned meals by animal"),
            Words("greens and other food by weight are bought fresh and not counted here"),
            Words("an estimate by usual growth and intervals; look at it before buying"),
        ),
    )


def _row(line: OrderLine) -> tuple[Cell, ...]:
    return (
        line.prey,
        prey_named(line.prey).name,
        line.planned,
        line.stock,
        line.short,
        _packs(line.packs),
        line.bought,
        line.cost if line.bought else None,
    )


def _items(planned: Forecast) -> int | None:
    """How many items are to be had; None of food by weight or by eye."""
    counted_ones = [m.count for m in planned.meals if not weighed(m.prey)]
    return sum(counted_ones) if counted_ones or planned.times == 0 else None


def _packs(bought: Sequence[tuple[Pack, int]]) -> str:
    return ", ".join(f"{n} × {p.size}" if p.size > 1 else f"{n} single" for p, n in bought) or "–"
