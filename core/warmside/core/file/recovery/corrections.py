"""Corrected events in a file put together of several sources: as the steps say, by what is there.

An event says by which one it is replaced, and the step that did so says it, too; either may have
been lost, or come from a copy of before.
"""

from __future__ import annotations

import json
import sqlite3
from collections.abc import Mapping

NOT_YET = {"replaced_by": None}


def correct(new: sqlite3.Connection, said: Mapping[int, int | None]) -> None:
    """Events are replaced as steps have `said`, where the new one is there; others are in force."""
    there = {row[0] for row in new.execute("SELECT id FROM event")}
    held = {id: by for id, by in said.items() if by is None or by in there}
    statement = "UPDATE event SET replaced_by = ? WHERE id = ?"
    new.executemany(statement, [(by, id) for id, by in held.items()])
    gone = "replaced_by NOT IN (SELECT id FROM event)"
    new.execute(f"UPDATE event SET replaced_by = NULL WHERE {gone}")
    for id in said.keys() - held.keys():
        lost = "tbl = 'event' AND json_valid(key) AND json_extract(key, '$.id') = ?"
        new.execute(f"DELETE FROM change WHERE {lost}", (id,))
    _say_again(new, held)


def _say_again(new: sqlite3.Connection, held: Mapping[int, int | None]) -> None:
    """A line of change for each corrected event of which no step tells any more."""
    cursor = new.execute("SELECT * FROM event WHERE replaced_by IS NOT NULL")
    names = [column[0] for column in cursor.description]
    for values in cursor.fetchall():
        row = dict(zip(names, values, strict=True))
        if row["id"] not in held:
            by = "SELECT step_id FROM event WHERE id = ?"
            (step,) = new.execute(by, (row["replaced_by"],)).fetchone()
            texts = (json.dumps(image) for image in ({"id": row["id"]}, row | NOT_YET, row))
            said_of = "step_id, tbl, key, before, after"
            line = f"INSERT INTO change ({said_of}) VALUES (?, 'event', ?, ?, ?)"
            new.execute(line, (step, *texts))
