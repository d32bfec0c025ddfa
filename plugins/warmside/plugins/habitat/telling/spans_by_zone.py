"""A span for each zone at the temperature that it is held at, as a table."""

from __future__ import annotations

from collections.abc import Sequence

from warmside.api import Cell, Column, Table, Unit

SpanRow = tuple[Cell, ...]
"""A zone, its temperature in degrees C, the least and the most of what is asked of it."""


def spans_by_zone(
    key: str, title: str, heads: tuple[str, str], unit: Unit, rows: Sequence[SpanRow]
) -> Table:
    """The table; `heads` stand over the temperature and over the least, in the unit."""
    held, least = heads
    columns = (
        Column("zone", "zone"),
        Column("held", held, Unit.TEMPERATURE),
        Column("low", least, unit),
        Column("high", "to", unit),
    )
    return Table(key, columns, tuple(rows), title)
