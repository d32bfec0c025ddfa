"""The rows of a series: written in a stream, moved to the shelf and back by step.

A step that wrote into a series has one line of `change` for it, whose key is no row's but
`{"rows of step": number}` and which has their number and their checksum. All here works from the
file alone, so that undo works when the plugin is gone.
"""

from __future__ import annotations

import json
import sqlite3
from collections.abc import Iterable, Iterator, Mapping, Sequence
from contextlib import contextmanager
from itertools import islice
from typing import Any, Literal

from sqlalchemy import Connection

from warmside.core.record.guards import STEP
from warmside.core.record.series.declared import Inserted, Series
from warmside.core.record.series.stored import as_stored
from warmside.core.record.series.sums import rows_sum
from warmside.core.values.errors import BadInput, Refused

OnSame = Literal["skip", "refuse"]
Row = Sequence[Any]
LINE = "rows of step"
AT_ONCE = 2000


def insert_rows(
    connection: Connection, to: Series, rows: Iterable[Row], step_id: int, on_same: OnSame
) -> Inserted:
    """Add rows, in the order of the series' columns, all of them or none; see `insert_many`."""
    driver: sqlite3.Connection = connection.connection.driver_connection  # type: ignore[assignment]
    names = ", ".join(f'"{name}"' for name in (*to.columns, STEP))
    marks = "?, " * len(to.columns)
    # only the key: OR IGNORE would pass over rows that a CHECK or a type refuses, too
    same = f"ON CONFLICT ({', '.join(to.key)}) DO NOTHING" if on_same == "skip" else ""
    # the step stands in the statement: no row is touched by Python on its way
    statement = f'INSERT INTO "{to.name}" ({names}) VALUES ({marks}{int(step_id)}) {same}'
    new, total, counted = 0, 0, _Counted(rows)
    with _whole(driver), _told(to, counted):
        for some in counted.in_parts():
            added = _added(driver, statement, some, counted) if same else some
            if not same:
                driver.executemany(statement, counted.each(some))
            new, total = new + len(added), total + rows_sum(as_stored(driver, to, added))
    if new:
        _write_line(connection, to.name, step_id, new, total)
    return Inserted(new, counted.number - new)


def _added(
    driver: sqlite3.Connection, statement: str, some: list[Row], counted: _Counted
) -> list[Row]:
    """Add rows but those whose key is there already; returns those that are new."""
    driver.execute("SAVEPOINT some_rows")
    new = driver.executemany(statement, counted.each(some)).rowcount
    if new in (0, len(some)):
        driver.execute("RELEASE some_rows")
        return some if new else []
    driver.execute("ROLLBACK TO some_rows")
    driver.execute("RELEASE some_rows")
    return [row for row in some if driver.execute(statement, row).rowcount]


class _Counted:
    """Rows on their way, counted, the last one at hand for what is to be said of it."""

    def __init__(self, rows: Iterable[Row]) -> None:
        self._rows = iter(rows)
        self.number = 0
        self.row: Row = ()

    def in_parts(self) -> Iterator[list[Row]]:
        """The rows, so many at once that none stays long in memory."""
        while some := list(islice(self._rows, AT_ONCE)):
            yield some

    def each(self, some: list[Row]) -> Iterator[Row]:
        """The rows of a part, one after the other."""
        for row in some:
            self.row = row
            self.number += 1
            yield row


@contextmanager
def _whole(driver: sqlite3.Connection) -> Iterator[None]:
    """All or nothing, also where the caller goes on with the step after an error."""
    driver.execute("SAVEPOINT rows_of_series")
    try:
        yield
    except BaseException:
        if driver.in_transaction:  # a full disk has ended it already
            driver.execute("ROLLBACK TO rows_of_series")
            driver.execute("RELEASE rows_of_series")
        raise
    driver.execute("RELEASE rows_of_series")


@contextmanager
def _told(to: Series, counted: _Counted) -> Iterator[None]:
    try:
        yield
    except sqlite3.IntegrityError as error:
        row = f"row {counted.number} {tuple(counted.row)}"
        if error.sqlite_errorcode == sqlite3.SQLITE_CONSTRAINT_PRIMARYKEY:
            same = ", ".join(to.key)
            raise Refused(f"{row}: {to.name} has a row of the same {same} already") from error
        raise BadInput(f"{row} does not fit into {to.name}: {error}") from error


def _write_line(connection: Connection, name: str, step_id: int, new: int, total: int) -> None:
    """Add the new rows to the step's line, which comes after all that they refer to."""
    key = json.dumps({LINE: step_id})
    connection.exec_driver_sql(
        "INSERT INTO change (step_id, tbl, key, after) SELECT ?, ?, ?, json_object('rows', ? + "
        "coalesce(sum(json_extract(after, '$.rows')), 0), 'sum', ? + "
        "coalesce(sum(json_extract(after, '$.sum')), 0)) FROM change WHERE step_id = ? AND "
        "tbl = ? AND key = ?",
        (step_id, name, key, new, total, step_id, name, key),
    )
    connection.exec_driver_sql(
        "DELETE FROM change WHERE step_id = ? AND tbl = ? AND key = ? AND id < last_insert_rowid()",
        (step_id, name, key),
    )


def names(connection: Connection) -> list[str]:
    """The tables of this file that are series, by their guards."""
    rows = connection.exec_driver_sql(
        "SELECT tbl_name FROM sqlite_schema WHERE type = 'trigger' AND tbl_name <> 'event' AND "
        "name = tbl_name || '_leaves_by_the_shelf' ORDER BY tbl_name"
    )
    return [row[0] for row in rows]


def is_line(key: Mapping[str, Any]) -> bool:
    """Whether a change is the line of a series, not of one row."""
    return LINE in key


def defer_references(connection: Connection) -> None:
    """Check references at the end only: all rows of a series move at once.

    The rows that a step wrote between two parts of a series refer to either.
    """
    connection.exec_driver_sql("PRAGMA defer_foreign_keys = ON")


def shelve(connection: Connection, name: str, step_id: int) -> None:
    """Move the rows of a step out of force."""
    _move(connection, name, f"{name}_shelf", step_id)


def unshelve(connection: Connection, name: str, step_id: int) -> None:
    """Put the rows of an undone step in force again."""
    _move(connection, f"{name}_shelf", name, step_id)


def _move(connection: Connection, source: str, target: str, step_id: int) -> None:
    columns = connection.exec_driver_sql(f'PRAGMA table_info("{target}")')
    names = ", ".join(f'"{row[1]}"' for row in columns)
    for statement in (
        f'INSERT INTO "{target}" ({names}) SELECT {names} FROM "{source}" WHERE {STEP} = ?',
        f'DELETE FROM "{source}" WHERE {STEP} = ?',
    ):
        connection.exec_driver_sql(statement, (step_id,))
