"""A list with a column that says what was done: the rows that hold an event, without it."""

from __future__ import annotations

from msgspec.structs import replace

from warmside.core.csv.done_column import column_of_done, is_done
from warmside.core.csv.mapping import CsvMapping
from warmside.core.csv.sheet.grid import Flat, Row
from warmside.core.values.errors import BadInput


def done_rows(table: Flat, mapping: CsvMapping) -> tuple[Flat, tuple[int, ...]]:
    """The table with the rows that were done, and the lines of the others; BadInput without any."""
    used = (*mapping.skipped, *(c.column for c in mapping.fields.values()))
    done = column_of_done(table.columns, used)
    if not done:
        return table, ()
    place = table.columns.index(done)
    named = {n: column.strip().casefold() for n, column in enumerate(table.columns)}
    kept, left = list[Row](), list[int]()
    for row in table.rows:
        cells = {named[n]: row.cell(n) for n in named}
        if is_done(cells, named[place]):
            kept.append(replace(row, cells=(*row.cells[:place], *row.cells[place + 1 :])))
        else:
            left.append(row.line)
    if not kept:
        raise BadInput(f"no row is marked in the column {done!r}; write yes where it was done")
    columns = (*table.columns[:place], *table.columns[place + 1 :])
    return replace(table, columns=columns, rows=tuple(kept)), tuple(left)
