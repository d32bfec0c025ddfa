"""Checksums of what is recorded: of each event, of each step, and of each other table as a whole.

They tell rot and slips of other programs from what was written here; they are no proof against
somebody who means it. CRC-32 of the row as JSON (ISO/IEC 8802-3, as zlib has it). Rows of series
have one for each step, see `series_sums`. No heavy imports.
"""

from __future__ import annotations

import json
import secrets
import sqlite3
import zlib
from collections.abc import Iterable, Sequence
from typing import Any

from msgspec import Struct

from warmside.core.record.series.sums import to_renew, wrong_lines

EVENT = "id, kind, animal_id, enclosure_id, day, at, zone, data, note, step_id"
STEP = ("id", "at", "kind", "words", "of", "by", "ref")
"""A file of an older revision has the first of them alone."""
CHANGE = "id, tbl, key, before, after"
# told by sums of rows, or by their number, not by one of the whole table
OWN_SUMS = (
    "event",
    "event_shelf",
    "step",
    "change",
    "seal",
    "touched",
)

_encoded = json.JSONEncoder(separators=(",", ":"), default=repr).encode


def row_sum(values: Sequence[Any], start: int = 0) -> int:
    """The checksum of a row as SQLite holds it, going on from that of another."""
    return zlib.crc32(_encoded(list(values)).encode(), start)


def step_sum(connection: sqlite3.Connection, id: int) -> int:
    """The checksum of a step with its events, wherever they are now, and its changes."""
    found = row_sum(_step_row(connection, id))
    events = connection.execute(
        "SELECT id, sum FROM event WHERE step_id = ? UNION ALL "
        "SELECT id, sum FROM event_shelf WHERE step_id = ? ORDER BY id",
        (id, id),
    )
    for event in events:
        found = row_sum(event, found)
    changes = f"SELECT {CHANGE} FROM change WHERE step_id = ? ORDER BY id"
    for change in connection.execute(changes, (id,)):
        found = row_sum(change, found)
    return found


def _step_row(connection: sqlite3.Connection, id: int) -> list[Any]:
    cursor = connection.execute("SELECT * FROM step WHERE id = ?", (id,))
    row = dict(zip((c[0] for c in cursor.description), cursor.fetchone(), strict=True))
    return [row[name] for name in STEP if name in row]


def sum_step(connection: sqlite3.Connection, id: int) -> None:
    """Write the checksum of a step that is whole now."""
    connection.execute("UPDATE step SET sum = ? WHERE id = ?", (step_sum(connection, id), id))


def table_sum(connection: sqlite3.Connection, table: str) -> int:
    """The checksum of all rows of a table, in the order of its key."""
    found = 0
    keys = [
        f'"{name}"'
        for name, place in sorted(
            connection.execute("SELECT name, pk FROM pragma_table_info(?)", (table,)),
            key=lambda c: int(c[1]),
        )
        if place
    ]
    order = f" ORDER BY {', '.join(keys)}" if keys else ""
    for row in connection.execute(f'SELECT * FROM "{table}"{order}'):
        found = row_sum(row, found)
    return found


def is_sealed(connection: sqlite3.Connection, table: str) -> bool:
    """Whether a table is as it was when it was sealed, or has not been sealed yet."""
    row = connection.execute("SELECT sum FROM seal WHERE tbl = ?", (table,)).fetchone()
    return row is None or row[0] == table_sum(connection, table)


def seal(connection: sqlite3.Connection, tables: Iterable[str]) -> None:
    """Keep the checksums of tables as they are now."""
    rows = [(table, table_sum(connection, table)) for table in sorted(set(tables))]
    connection.executemany("INSERT OR REPLACE INTO seal (tbl, sum) VALUES (?, ?)", rows)


def sealed_tables(connection: sqlite3.Connection) -> list[str]:
    """The tables that are sealed as a whole: all but those with sums of their own, and series."""
    rows = connection.execute(
        "SELECT name FROM sqlite_schema WHERE type = 'table' AND sql LIKE 'CREATE TABLE %' "
        "AND name NOT LIKE 'sqlite\\_%' ESCAPE '\\' ORDER BY name"
    )
    names = {row[0] for row in rows}
    twins = {n for n in names if f"{n}_shelf" in names}
    series = twins | {f"{n}_shelf" for n in twins}
    return sorted(names - series - set(OWN_SUMS))


COUNT_STAMPS = "INSERT OR REPLACE INTO seal (tbl, sum) SELECT 'touched', count(*) FROM touched"


def stamp_for(what: str, token: str) -> str:
    """The stamp of one thing that a step touched: its token of 8 digits, and their checksum."""
    return f"{token}{row_sum((what, token)):08x}"


def stamp_problems(connection: sqlite3.Connection) -> list[str]:
    """What bears a stamp that no step gave; that some are missing is told by their number."""
    rows = connection.execute("SELECT what, stamp FROM touched").fetchall()
    kept = connection.execute("SELECT sum FROM seal WHERE tbl = 'touched'").fetchone()
    missing = ["number of stamps"] if kept is not None and kept[0] != len(rows) else []
    wrong = [str(what) for what, stamp in rows if stamp_for(what, str(stamp)[:8]) != stamp]
    return wrong + missing


def event_problems(connection: sqlite3.Connection, part: str = "1") -> list[int]:
    """The events whose content is not what was recorded; `part` is a condition on their ids."""
    return [
        row[0]
        for table in ("event", "event_shelf")
        for row in connection.execute(f"SELECT {EVENT}, sum FROM {table} WHERE {part}")
        if row_sum(row[:-1]) != row[-1]
    ]


def step_problems(connection: sqlite3.Connection, part: str = "1") -> list[int]:
    """The steps whose words, events or changes are not what was recorded."""
    rows = connection.execute(f"SELECT id, sum FROM step WHERE {part}").fetchall()
    return [id for id, kept in rows if step_sum(connection, id) != kept]


def table_problems(connection: sqlite3.Connection) -> list[str]:
    """The tables that are not as the last step left them."""
    kept = dict(connection.execute("SELECT tbl, sum FROM seal"))
    now = sealed_tables(connection)
    gone = sorted(kept.keys() - set(now) - {"touched"})
    return [t for t in now if kept.get(t) != table_sum(connection, t)] + gone


class Wrong(Struct, frozen=True):
    """What does not have the checksum that was kept."""

    events: frozenset[int] = frozenset()
    steps: frozenset[int] = frozenset()
    tables: frozenset[str] = frozenset()
    series: frozenset[tuple[str, int]] = frozenset()  # with the step


def renew_series(connection: sqlite3.Connection, leave: Wrong) -> None:
    """Work out the sums of series anew, and those of their steps where these were right."""
    for line, after in to_renew(connection, leave.series):
        was_right = not step_problems(connection, f"id = {line.step_id}")
        connection.execute("UPDATE change SET after = ? WHERE id = ?", (after, line.id))
        if was_right:
            sum_step(connection, line.step_id)


def renew(connection: sqlite3.Connection, leave: Wrong) -> None:
    """Work out all sums anew, after a revision; what was wrong before stays wrong."""
    for table in ("event", "event_shelf"):
        rows = connection.execute(f"SELECT {EVENT} FROM {table}").fetchall()
        sums = [(row_sum(r), r[0]) for r in rows if r[0] not in leave.events]
        connection.executemany(f"UPDATE {table} SET sum = ? WHERE id = ?", sums)
    renew_series(connection, leave)
    steps = [row[0] for row in connection.execute("SELECT id FROM step")]
    for id in (s for s in steps if s not in leave.steps):
        sum_step(connection, id)
    seal(connection, set(sealed_tables(connection)) - leave.tables)
    stamped = [(stamp_for(w, secrets.token_hex(4)), w) for w in stamp_problems(connection)]
    connection.executemany("UPDATE touched SET stamp = ? WHERE what = ?", stamped)
    connection.execute(COUNT_STAMPS)


def has_sums(connection: sqlite3.Connection) -> bool:
    """Whether the file is of a revision that keeps sums."""
    query = "SELECT count(*) FROM sqlite_schema WHERE type = 'table' AND name = 'seal'"
    return bool(connection.execute(query).fetchone()[0])


def wrong(connection: sqlite3.Connection) -> Wrong:
    """Everything that does not have the checksum that was kept."""
    if not has_sums(connection):
        return Wrong()
    return Wrong(
        frozenset(event_problems(connection)),
        frozenset(step_problems(connection)),
        frozenset(table_problems(connection)),
        frozenset(wrong_lines(connection)),
    )
