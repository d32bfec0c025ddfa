"""What is in stock, lot by lot and by class."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date

from warmside.api import Cell, Column, Kind, Table, Unit
from warmside.plugins.feeding.prey.classes import prey_named
from warmside.plugins.feeding.stock.lots import Lot, on_hand

COLUMNS = (
    Column("lot", "lot", Kind.CODE),
    Column("prey", "prey", Kind.CODE, text=False),
    Column("name", "prey"),
    Column("left", "left", Unit.COUNT),
    Column("frozen", "frozen", Kind.DATE),
    Column("age", "age", Unit.AGE),
    Column("each", "one weighs", Unit.MASS),
    Column("price", "price of one", Unit.MONEY),
)
TOTAL_COLUMNS = (
    Column("prey", "prey", Kind.CODE, text=False),
    Column("name", "prey"),
    Column("left", "left", Unit.COUNT),
)


def lots_table(lots: Sequence[Lot], day: date) -> Table:
    """Every lot with its age on a day."""
    rows = tuple(
        (
            str(lot.id),
            lot.prey,
            prey_named(lot.prey).name,
            lot.count,
            lot.day,
            (day - lot.day).days,
            lot.each_g,
            lot.price,
        )
        for lot in lots
    )
    hint = "nothing in stock; add it: warmside feeding stock add mouse-adult 25"
    return Table("lots", COLUMNS, rows, empty=hint)


def totals(lots: Sequence[Lot], title: str = "By class") -> Table:
    """What is left by class."""
    rows: tuple[tuple[Cell, ...], ...] = tuple(
        (code, prey_named(code).name, count) for code, count in on_hand(lots).items()
    )
    return Table("totals", TOTAL_COLUMNS, rows, title, empty="")
