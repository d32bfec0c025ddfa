"""Tables for a phone: prose that has no room beside the other columns goes under its row."""

from __future__ import annotations

from collections.abc import Sequence

from msgspec.structs import replace

from warmside.core.answers.parts import Cell, Column, Table
from warmside.faces.cells import is_numeric

ROOM = 46
"""So many letters of a table stand beside each other on a phone of 390 points."""
GAP = 1
NUMBER = 8
WRAPPED = 10
"""Letters to which the lines of a text may be broken; longer ones are prose."""


def narrow(table: Table) -> Table:
    """The table with its last columns of prose below, until the others have room."""
    if not table.rows:
        return table
    columns = list(table.columns)
    beside = [i for i, c in enumerate(columns) if c.text and not c.below]
    taken = sum(_breadth(columns[i], [r[i] for r in table.rows]) + GAP for i in beside)
    for i in reversed(beside[1:]):
        cells = [row[i] for row in table.rows]
        if taken > ROOM and _is_prose(cells):
            taken -= _breadth(columns[i], cells) + GAP
            columns[i] = replace(columns[i], below=True)
    return replace(table, columns=tuple(columns))


def _is_prose(cells: Sequence[Cell]) -> bool:
    return any(isinstance(cell, str) and len(cell) > WRAPPED + 2 for cell in cells)


def _breadth(column: Column, cells: Sequence[Cell]) -> int:
    """About how many letters wide it is at the least."""
    title = max((len(word) for word in column.title.split()), default=0)
    if is_numeric(column, cells):
        return max(title, NUMBER)
    longest = max((len(str(cell)) for cell in cells if cell is not None), default=1)
    return max(title, min(longest, WRAPPED))
