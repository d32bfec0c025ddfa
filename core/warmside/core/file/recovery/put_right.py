"""A file put together of several sources, put right by its own record of steps.

A copy holds rows as they were on its day. What later steps changed, took back or corrected is told
by `step` and `change`, and is done again here.
"""

from __future__ import annotations

import json
import sqlite3
from collections import Counter
from collections.abc import Collection, Iterator
from contextlib import suppress
from typing import Any

from warmside.core.file.recovery.corrections import correct
from warmside.core.file.recovery.lost_steps import Shown, make_lost
from warmside.core.record.series.sums import series_in

CHANGES = (
    "SELECT c.tbl, c.key, c.before, c.after, s.undone_by IS NULL FROM change c "
    "JOIN step s ON s.id = c.step_id WHERE json_valid(c.key) "
    "AND c.key NOT LIKE '{\"rows of step\":%' ORDER BY c.id"
)
UNKNOWN_GROUP = "other"
Image = dict[str, Any]


def put_right(new: sqlite3.Connection, mended: Collection[str], shown: Shown) -> Counter[str]:
    """Bring the tables that were filled from copies to where the steps leave them.

    `shown` is what the file itself shows of steps. Returns how many rows of each table were made
    or taken away so. What is read from the file whole stays as it was read.
    """
    done = Counter[str]()
    make_lost(new, shown if "step" in mended else Shown(frozenset(), frozenset()))
    corrections: dict[int, int | None] = {}
    for table, key, row in list(_last_images(new)):
        if table == "event" and row is not None and "id" in key:
            corrections[key["id"]] = row.get("replaced_by")
        elif table in mended:
            done[table] += _put(new, table, key, row)
    for table in ("event", *series_in(new)):
        done[table] += _by_step(new, table)
    correct(new, corrections)
    return +done


def name_lost_species(new: sqlite3.Connection) -> int:
    """A row for each species that animals refer to and that is nowhere; how many."""
    made = new.execute(
        "INSERT INTO species (id, scientific, common, grp, sex_system) "
        "SELECT DISTINCT species_id, 'species ' || species_id || ', whose name was lost', '', "
        "?, 'unknown' FROM animal WHERE species_id NOT IN (SELECT id FROM species)",
        (UNKNOWN_GROUP,),
    )
    return made.rowcount


def _last_images(new: sqlite3.Connection) -> Iterator[tuple[str, Image, Image | None]]:
    """Each row that steps wrote, as the last one in force left it, or as it was before all."""
    last: dict[tuple[str, str], tuple[str | None, bool]] = {}
    for table, key, before, after, in_force in new.execute(CHANGES):
        if in_force:
            last[table, key] = after, True
        else:
            last.setdefault((table, key), (before, False))
    for (table, key), (image, _) in last.items():
        with suppress(ValueError):  # what rot has struck
            yield table, json.loads(key), json.loads(image) if image else None


def _put(new: sqlite3.Connection, table: str, key: Image, row: Image | None) -> int:
    """Make the row of that key be `row`, or not be; 1 where it was not so, or was not there."""
    known = {r[0] for r in new.execute("SELECT name FROM pragma_table_info(?)", (table,))}
    if not key or not (key.keys() | (row or {}).keys()) <= known:
        return 0
    where = " AND ".join(f'"{name}" = ?' for name in key)
    keys = tuple(key.values())
    with suppress(sqlite3.IntegrityError):
        if row is None:
            return new.execute(f'DELETE FROM "{table}" WHERE {where}', keys).rowcount
        names, marks = ", ".join(f'"{n}"' for n in row), ", ".join("?" * len(row))
        statement = f'INSERT OR IGNORE INTO "{table}" ({names}) VALUES ({marks})'
        if made := new.execute(statement, tuple(row.values())).rowcount:
            return made
        sets = ", ".join(f'"{name}" = ?' for name in row)
        differs = " OR ".join(f'"{name}" IS NOT ?' for name in row)
        statement = f'UPDATE "{table}" SET {sets} WHERE {where} AND ({differs})'
        values = tuple(row.values())
        return new.execute(statement, (*values, *keys, *values)).rowcount
    return 0


def _by_step(new: sqlite3.Connection, table: str) -> int:
    """Rows of undone steps lie on the shelf alone, and those of steps in force beside it."""
    shelf, moved = f"{table}_shelf", 0
    columns = [r[0] for r in new.execute("SELECT name FROM pragma_table_info(?)", (shelf,))]
    names = ", ".join(f'"{c}"' for c in columns)
    for source, target, undone in ((table, shelf, "NOT NULL"), (shelf, table, "NULL")):
        which = f"step_id IN (SELECT id FROM step WHERE undone_by IS {undone})"
        copy = f'INSERT OR IGNORE INTO "{target}" ({names}) SELECT {names} FROM "{source}"'
        new.execute(f"{copy} WHERE {which}")
        moved += new.execute(f'DELETE FROM "{source}" WHERE {which}').rowcount
    return moved
