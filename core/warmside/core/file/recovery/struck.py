"""What can be read of a damaged file and is not what was written: taken from the copies.

A checksum tells it, of a step with its changes and of a table as a whole.
"""

from __future__ import annotations

import json
import sqlite3
from collections import Counter
from collections.abc import Collection, Sequence
from contextlib import closing, suppress
from pathlib import Path

from warmside.core.file.state import reader
from warmside.core.record import sums

Row = tuple[object, ...]
NO_MAPPING = " OR ".join(
    f"({name} IS NOT NULL AND NOT (json_valid({name}) AND json_type({name}) = 'object'))"
    for name in ("key", "before", "after")
)


def steps_of_copies(new: sqlite3.Connection, copies: Sequence[Path]) -> None:
    """Words and changes of each step that is not as it was, from the newest copy that has it so."""
    wrong = set(sums.step_problems(new))
    for copy in copies if wrong else ():
        with suppress(sqlite3.DatabaseError), closing(reader(copy)) as connection:
            held = wrong & {row[0] for row in connection.execute("SELECT id FROM step")}
            whole = held - set(sums.step_problems(connection))
            for id in sorted(whole):
                _take_step(new, connection, id)
            wrong = set(sums.step_problems(new))


def rows_of_copies(
    new: sqlite3.Connection, copies: Sequence[Path], tables: Collection[str]
) -> Counter[str]:
    """Rows that no step tells of, in tables that are not as they were left, as copies have them.

    How many were others in the file. What a step did tell of is as that step says.
    """
    taken = Counter[str]()
    sealed = {row[0] for row in new.execute("SELECT tbl FROM seal")}
    for table in sorted(sealed & set(tables) & set(sums.table_problems(new))):
        for copy in copies:
            if table in sums.table_problems(new):
                taken[table] += _take_rows(new, copy, table)
    return taken


def leave_out_unreadable(new: sqlite3.Connection) -> None:
    """Leave out lines of change of which nothing can be made; their steps are not whole."""
    new.execute(f"DELETE FROM change WHERE {NO_MAPPING}")


def _take_step(new: sqlite3.Connection, copy: sqlite3.Connection, id: int) -> None:
    """Whether it was taken back since is not among what is taken."""
    there = {r[0] for r in new.execute("SELECT name FROM pragma_table_info('step')")}
    columns = [name for name in (*sums.STEP, "sum") if name in there and name != "id"]
    names = ", ".join(f'"{c}"' for c in columns)
    values = copy.execute(f"SELECT {names} FROM step WHERE id = ?", (id,)).fetchone()
    sets = ", ".join(f'"{c}" = ?' for c in columns)
    new.execute(f"UPDATE step SET {sets} WHERE id = ?", (*values, id))
    new.execute("DELETE FROM change WHERE step_id = ?", (id,))
    said = f"{sums.CHANGE}, step_id"
    lines = copy.execute(f"SELECT {said} FROM change WHERE step_id = ?", (id,)).fetchall()
    marks = ", ".join("?" * len(said.split(",")))
    new.executemany(f"INSERT OR REPLACE INTO change ({said}) VALUES ({marks})", lines)


def _take_rows(new: sqlite3.Connection, copy: Path, table: str) -> int:
    """Make the rows that no step tells of those of the copy; how many.

    One too many goes only where all that steps told is there, or it might be one that they made.
    """
    info = new.execute("SELECT name, pk FROM pragma_table_info(?)", (table,)).fetchall()
    columns, keys = [name for name, _ in info], [name for name, place in info if place]
    told = {row[0] for row in new.execute("SELECT key FROM change WHERE tbl = ?", (table,))}
    own, theirs = _by_key(new, table, columns, keys), dict[str, Row]()
    with suppress(sqlite3.DatabaseError), closing(reader(copy)) as connection:
        if sums.is_sealed(connection, table):
            theirs = _by_key(connection, table, columns, keys)
    marks, where = ", ".join("?" * len(columns)), " AND ".join(f'"{k}" IS ?' for k in keys)
    others = [k for k, row in theirs.items() if k not in told and own.get(k) != row]
    for key in others:
        new.execute(f'INSERT OR REPLACE INTO "{table}" VALUES ({marks})', theirs[key])
    if theirs and not sums.step_problems(new):
        extra = [json.loads(k).values() for k in own.keys() - theirs.keys() - told]
        new.executemany(f'DELETE FROM "{table}" WHERE {where}', [tuple(e) for e in extra])
    return len(others)


def _by_key(
    connection: sqlite3.Connection, table: str, columns: Sequence[str], keys: Sequence[str]
) -> dict[str, Row]:
    """The rows of a table by their keys, as `change` names them."""
    names, places = ", ".join(f'"{c}"' for c in columns), [columns.index(key) for key in keys]
    rows = connection.execute(f'SELECT {names} FROM "{table}"')
    return {
        json.dumps({k: r[p] for k, p in zip(keys, places, strict=True)}, default=repr): r
        for r in rows
    }
