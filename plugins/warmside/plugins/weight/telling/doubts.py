"""Weighings in doubt, as a table."""

from __future__ import annotations

from collections.abc import Iterable
from datetime import date

from warmside.api import Cell, Column, Display, Kind, Table, Unit
from warmside.plugins.weight.course.weights import Weights
from warmside.plugins.weight.slips.suspicion import Suspicion

COLUMNS = (
    Column("animal", "who", Kind.CODE),
    Column("event", "event"),
    Column("day", "day", Kind.DATE),
    Column("mass", "mass", Unit.MASS),
    Column("perhaps", "perhaps", Unit.MASS),
    Column("why", "why"),
)


def doubts_table(found: Iterable[tuple[Weights, tuple[Suspicion, ...]]], display: Display) -> Table:
    """A line for each weighing of each doubt."""
    rows = tuple(
        _row(weights, doubt, event, display)
        for weights, doubts in found
        for doubt in doubts
        for event in doubt.events
    )
    return Table("doubts", COLUMNS, rows, empty="no weighing is in doubt")


def _row(weights: Weights, doubt: Suspicion, event: int, display: Display) -> tuple[Cell, ...]:
    return (
        weights.animal.code,
        event,
        date.fromordinal(int(weights.day_of(event))),
        weights.mass_of(event),
        doubt.meant_g,
        doubt.words.said(display),
    )
