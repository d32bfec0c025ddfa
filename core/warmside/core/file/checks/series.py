"""What is wrong with the series in a file: their guards, shelves, and the steps of their rows.

A series is told by its shelf twin, not by its guards, which might be what is missing.
"""

from __future__ import annotations

import sqlite3
from collections.abc import Iterator

from warmside.core.record.series.sums import lines_of, series_in


def check(connection: sqlite3.Connection) -> Iterator[tuple[str, str]]:
    """What was checked of each series, and what is wrong with it (empty: nothing)."""
    for name in series_in(connection):
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
    lines = lines_of(connection, name)
    for in_force, table, where in ((True, name, "in force"), (False, f"{name}_shelf", "undone")):
        wanted = {line.step_id: line.rows for line in lines if line.in_force is in_force}
        query = f'SELECT step_id, count(*) FROM "{table}" GROUP BY step_id'
        found = dict(connection.execute(query).fetchall())
        steps = sorted(found.keys() | wanted.keys())
        if odd := [s for s in steps if found.get(s, 0) != wanted.get(s, 0)]:
            rows = f"{found.get(odd[0], 0)} rows {where}, not {wanted.get(odd[0], 0)}"
            yield f"step {odd[0]} has {rows}"
