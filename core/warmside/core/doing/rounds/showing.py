"""Showing quantities in other units, and reading typed days; what is stored stays as it is."""

from __future__ import annotations

from collections.abc import Iterator

from warmside.core.answers.parts import Answer, Cell, Column, Kind, Table, said
from warmside.core.asking.subjects.recorded import TAKE_BACK
from warmside.core.record.entries import change_dates, change_display
from warmside.core.session.session import Session
from warmside.core.values.display import Display, parse_display
from warmside.core.values.measures.measure import measure_of
from warmside.core.values.numbered_days import parse_order
from warmside.core.values.units import units

COLUMNS = (
    Column("quantity", "quantity"),
    Column("unit", "unit"),
    Column("choices", "it can be", Kind.LIST),
)


def change_units(session: Session, text: str) -> Answer:
    """Change the units as typed: a preset, or one by one as `mass=g,length=in`."""
    with session.step("changed units") as writer:
        display = change_display(writer, parse_display(text, writer.book.home.display))
        writer.say(f"changed units to {display.text}")
    table = Table("units", COLUMNS, tuple(_rows(display)), "Shown and typed in")
    return said(f"units are now {display.text}", table, hints=[TAKE_BACK])


def change_order(session: Session, text: str) -> Answer:
    """Read days such as `4/1/2021` as typed: day first, or month first."""
    order = parse_order(text)
    with session.step(f"days are typed {order}") as writer:
        change_dates(writer, order)
    return said(f"days such as 4/1/2021 are read {order} now", hints=[TAKE_BACK])


def _rows(display: Display) -> Iterator[tuple[Cell, ...]]:
    """Each quantity that can be shown in more than one unit, and the one that is shown."""
    for unit in units():
        scales = [s for s in measure_of(unit).scales if s.names[0]]
        if len(scales) > 1:
            yield unit.words, display.style(unit).table.symbol, tuple(s.names[0] for s in scales)
