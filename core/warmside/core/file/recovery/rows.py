"""Rows of a damaged file's pages and of its copies, put into the tables of a new one."""

from __future__ import annotations

import sqlite3
from collections.abc import Iterable, Iterator, Sequence
from contextlib import closing, suppress
from pathlib import Path

from warmside.core.file.archives.writing import without_rowid
from warmside.core.file.recovery.pages import Pages, Row
from warmside.core.file.state import reader
from warmside.core.record import sums

Columns = Sequence[str]


def add_of_file(new: sqlite3.Connection, pages: Pages, root: int, table: str) -> tuple[int, bool]:
    """Add what the file's pages hold of a table: how many rows, and whether that is all of it."""
    before, given = pages.unread, 0
    in_key = without_rowid(new, table)
    columns = _as_in_pages(new, table) if in_key else _columns(new, table)
    key = None if in_key else _rowid_column(new, table)

    def sound() -> Iterator[Sequence[object]]:
        nonlocal given
        for row in pages.rows(root, in_key=in_key):
            given += 1
            values = _placed(row, columns, key)
            if values is not None and _sound(table, columns, values):
                yield values

    added = _add(new, table, columns, sound())
    return added, pages.unread == before and added == given


def add_of_copy(new: sqlite3.Connection, copy: Path, table: str) -> int:
    """Add the rows that SQLite can read in another file and that are not there; how many."""
    return _add(new, table, _columns(new, table), _of_copy(copy, table, _columns(new, table)))


def _sound(table: str, columns: Columns, values: Sequence[object]) -> bool:
    """Of events only those are taken whose checksum holds."""
    if table not in ("event", "event_shelf"):
        return True
    return _as_recorded(dict(zip(columns, values, strict=True)))


def _columns(connection: sqlite3.Connection, table: str) -> list[str]:
    return [r[0] for r in connection.execute("SELECT name FROM pragma_table_info(?)", (table,))]


def _as_in_pages(connection: sqlite3.Connection, table: str) -> list[str]:
    """The columns of a table that is stored in its key, in the order in which they lie there."""
    query = "SELECT name FROM pragma_table_info(?) ORDER BY pk = 0, pk, cid"
    return [r[0] for r in connection.execute(query, (table,))]


def _placed(row: Row, columns: Columns, key: str | None) -> list[object] | None:
    """The values by column; the key lies in the row's number, later columns may be missing."""
    values: list[object] = list(row.values)
    if len(values) > len(columns):
        return None
    values += [None] * (len(columns) - len(values))
    if key is not None:
        values[columns.index(key)] = row.rowid
    return values


def _rowid_column(new: sqlite3.Connection, table: str) -> str | None:
    rows = new.execute(
        "SELECT name, upper(type) FROM pragma_table_info(?) WHERE pk > 0", (table,)
    ).fetchall()
    return rows[0][0] if len(rows) == 1 and rows[0][1] == "INTEGER" else None


def _as_recorded(row: dict[str, object]) -> bool:
    wanted = [name.strip() for name in sums.EVENT.split(",")]
    return row.get("sum") is None or sums.row_sum([row[name] for name in wanted]) == row["sum"]


def _of_copy(copy: Path, table: str, columns: Columns) -> Iterable[Sequence[object]]:
    names = ", ".join(f'"{c}"' for c in columns)
    with suppress(sqlite3.DatabaseError), closing(reader(copy)) as connection:
        yield from connection.execute(f'SELECT {names} FROM "{table}"')


def _add(
    new: sqlite3.Connection, table: str, columns: Columns, rows: Iterable[Sequence[object]]
) -> int:
    names, marks = ", ".join(f'"{c}"' for c in columns), ", ".join("?" * len(columns))
    statement = f'INSERT OR IGNORE INTO "{table}" ({names}) VALUES ({marks})'
    added = 0
    for row in rows:
        with suppress(sqlite3.IntegrityError, sqlite3.InterfaceError, OverflowError):
            added += new.execute(statement, tuple(row)).rowcount
    return added
