"""Checksums of the rows of a series: one for each step, that their order does not change.

It is the sum of the CRC-32 (ISO/IEC 8802-3, as zlib has it) of each row, written as ASCII with its
columns in the order of their names, without its step. It stands in the step's line of `change`, so
that a row costs no byte more and a step that adds rows costs no look at earlier ones. As all sums
here it tells rot and slips, and is no proof against somebody who means it. No heavy imports.
"""

from __future__ import annotations

import json
import sqlite3
import zlib
from collections import Counter
from collections.abc import Collection, Iterable, Iterator, Sequence
from typing import Any

from msgspec import Struct

from warmside.core.record.guards import STEP

LINES = """
SELECT c.id, c.step_id, s.undone_by IS NULL,
CASE WHEN json_valid(c.after) THEN json_extract(c.after, '$.rows') END,
CASE WHEN json_valid(c.after) THEN json_extract(c.after, '$.sum') END
FROM change c JOIN step s ON s.id = c.step_id WHERE c.tbl = ? AND c.key LIKE '{"rows of step":%'
"""
SERIES = """
SELECT t.name FROM sqlite_schema t JOIN sqlite_schema s ON s.name = t.name || '_shelf'
WHERE t.type = 'table' AND s.type = 'table' AND t.name <> 'event'
AND EXISTS (SELECT 1 FROM pragma_table_info(t.name) WHERE name = 'step_id')
AND EXISTS (SELECT 1 FROM pragma_table_info(s.name) WHERE name = 'step_id') ORDER BY t.name
"""


class Line(Struct, frozen=True):
    """A step's line of a series; `sum` is None where an older version wrote it.

    `rows` is None where rot has struck the line.
    """

    id: int
    step_id: int
    in_force: bool
    rows: int | None
    sum: int | None


def rows_sum(rows: Iterable[Sequence[Any]]) -> int:
    """The sum of rows as SQLite holds them, each with its columns in the order of their names."""
    return sum(map(zlib.crc32, map(str.encode, map(ascii, rows))))


def series_in(connection: sqlite3.Connection) -> list[str]:
    """The series of a file, told by their shelves."""
    return [row[0] for row in connection.execute(SERIES)]


def lines_of(connection: sqlite3.Connection, name: str) -> list[Line]:
    """The lines of the steps that wrote into a series."""
    rows = connection.execute(LINES, (name,))
    return [Line(id, step, bool(on), count, kept) for id, step, on, count, kept in rows]


def sums_by_step(connection: sqlite3.Connection, table: str, part: str = "1") -> Counter[int]:
    """The sum of each step's rows in a series, or in its shelf; `part` tells of which steps."""
    columns = connection.execute("SELECT name FROM pragma_table_info(?)", (table,))
    names = ", ".join(f'"{n}"' for n in sorted(row[0] for row in columns) if n != STEP)
    found = Counter[int]()
    for row in connection.execute(f'SELECT {STEP}, {names} FROM "{table}" WHERE {part}'):
        found[row[0]] += zlib.crc32(ascii(row[1:]).encode())
    return found


def wrong_lines(connection: sqlite3.Connection, part: str = "1") -> list[tuple[str, int]]:
    """Each series with a step whose rows do not have the sum that was kept.

    `part` is a condition on the numbers of steps.
    """
    return [
        (name, line.step_id)
        for name in series_in(connection)
        for line, found in _held(connection, name, part)
        if line.sum is not None and line.sum != found
    ]


def _held(connection: sqlite3.Connection, name: str, part: str = "1") -> Iterator[tuple[Line, int]]:
    """The lines of a series, each with the sum of its rows as they are now."""
    ids = {row[0] for row in connection.execute(f"SELECT id AS step_id FROM step WHERE {part}")}
    lines = [line for line in lines_of(connection, name) if line.step_id in ids]
    if lines:
        tables = {True: name, False: f"{name}_shelf"}
        sums = {on: sums_by_step(connection, table, part) for on, table in tables.items()}
        yield from ((line, sums[line.in_force][line.step_id]) for line in lines)


def to_renew(
    connection: sqlite3.Connection, leave: Collection[tuple[str, int]] = ()
) -> list[tuple[Line, str]]:
    """The lines whose sums are others now, or were not written by an older version, made anew.

    What was wrong before, `leave`, is not among them.
    """
    return [
        (line, json.dumps({"rows": line.rows, "sum": found}))
        for name in series_in(connection)
        for line, found in _held(connection, name)
        if line.sum != found and (name, line.step_id) not in leave
    ]
