"""What is wrong with the series in a file: their guards, shelves, and the steps of their rows.

A series is told by its shelf twin, not by its guards, which might be what is missing.
"""

from __future__ import annotations

import sqlite3
from collections import Counter
from collections.abc import Iterator

SERIES = """
SELECT t.name FROM sqlite_schema t JOIN sqlite_schema s ON s.name = t.name || '_shelf'
WHERE t.type = 'table' AND s.type = 'table' AND t.name <> 'event'
AND EXISTS (SELECT 1 FROM pragma_table_info(t.name) WHERE name = 'step_id')
AND EXISTS (SELECT 1 FROM pragma_table_info(s.name) WHERE name = 'step_id') ORDER BY t.name
"""
LINES = """
SELECT c.step_id, s.undone_by IS NULL, json_extract(c.after, '$.rows')
FROM change c JOIN step s ON s.id = c.step_id
WHERE c.tbl = ? AND json_extract(c.key, '$."rows of step"') IS NOT NULL
"""


def check(connection: sqlite3.Connection) -> Iterator[tuple[str, str]]:
    """What was checked of each series, and what is wrong with it (empty: nothing)."""
    for (name,) in connection.execute(SERIES).fetchall():
        problems = (*_guards(connection, name), *_shelf(connection, name))
        yield f"series {name}", "; ".join(problems or _rows(connection, name))


def _guards(connection: sqlite3.Connection, name: str) -> Iterator[str]:
    query = "SELECT name FROM sqlite_schema WHERE type = 'trigger' AND tbl_name = ?"
    there = {row[0] for row in connection.execute(query, (name,))}
    wanted = {f"{name}_is_append_only", f"{name}_leaves_by_the_shelf"}
    if missing := sorted(wanted - there):
        yield f"missing: {', '.join(missing)}"


def _shelf(connection: sqlite3.Connection, name: str) -> Iterator[str]:
    query = 'SELECT name, type, "notnull" FROM pragma_table_info(?)'
    main, shelf = (
        connection.execute(query, (table,)).fetchall() for table in (name, f"{name}_shelf")
    )
    if sorted(main) != sorted(shelf):
        yield f"{name}_shelf has other columns, so that undo would lose something"


def _rows(connection: sqlite3.Connection, name: str) -> Iterator[str]:
    """Every row stands where its step says, and none is missing or too many."""
    wanted: dict[bool, Counter[int]] = {True: Counter(), False: Counter()}
    for step, in_force, rows in connection.execute(LINES, (name,)):
        wanted[bool(in_force)][step] = rows
    for in_force, table, where in ((True, name, "in force"), (False, f"{name}_shelf", "undone")):
        query = f'SELECT step_id, count(*) FROM "{table}" GROUP BY step_id'
        found = Counter(dict(connection.execute(query).fetchall()))
        if odd := sorted(s for s in found | wanted[in_force] if found[s] != wanted[in_force][s]):
            rows = f"{found[odd[0]]} rows {where}, not {wanted[in_force][odd[0]]}"
            yield f"step {odd[0]} has {rows}"
