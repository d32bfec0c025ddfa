"""Steps of which the own row was lost: made again as far as the rest of the record tells of them.

What they recorded need not go with them; the words and the moment are lost.
"""

from __future__ import annotations

import sqlite3
from typing import NamedTuple

LOST = "a step whose words were lost"
MOST_IN_A_ROW = 100_000
"""A number further than that from all others is rot, not a step; common practice, no source."""
TOLD_OF = (
    "SELECT id FROM step UNION SELECT undone_by FROM step UNION SELECT step_id FROM event "
    "UNION SELECT step_id FROM event_shelf UNION SELECT step_id FROM change ORDER BY 1"
)


class Shown(NamedTuple):
    """The steps whose events the damaged file itself shows in force, and on the shelf."""

    in_force: frozenset[int]
    shelved: frozenset[int]


def shown_in(new: sqlite3.Connection) -> Shown:
    """What the file shows, asked before rows of copies are added."""
    tables = ("event", "event_shelf")
    steps = [{row[0] for row in new.execute(f"SELECT step_id FROM {t}")} for t in tables]
    return Shown(frozenset(steps[0] - steps[1]), frozenset(steps[1] - steps[0]))


def make_lost(new: sqlite3.Connection, shown: Shown) -> None:
    """A row for each missing step; one is undone where the file's events lie on the shelf.

    Which step undid it was lost, too: a new number stands for it.
    """
    _fill_gaps(new)
    highest = _highest(new)
    done = "SELECT id, undone_by FROM step WHERE kind = 'do' ORDER BY id"
    for id, by in new.execute(done).fetchall():
        if by is None and id in shown.shelved:
            highest += 1
            new.execute("UPDATE step SET undone_by = ? WHERE id = ?", (highest, id))
        elif by is not None and id in shown.in_force:
            highest += 1
            new.execute("UPDATE step SET undone_by = NULL WHERE id = ?", (id,))
            new.execute("UPDATE step SET undone_by = ? WHERE id = ?", (highest, by))
    _fill_gaps(new)


def _highest(new: sqlite3.Connection) -> int:
    """The highest number of a step that anything tells of and that can be one."""
    highest = 0
    for (id,) in new.execute(TOLD_OF):
        if isinstance(id, int) and id > 0:
            if id - highest > MOST_IN_A_ROW:
                break
            highest = id
    return highest


def _fill_gaps(new: sqlite3.Connection) -> None:
    """A row for each number of a step that is missing."""
    highest = _highest(new)
    new.execute("DELETE FROM step WHERE id > ? OR id < 1", (highest,))
    new.execute("UPDATE step SET undone_by = NULL WHERE undone_by > ?", (highest,))
    new.execute("UPDATE step SET of = NULL WHERE of > ?", (highest,))
    there = {row[0] for row in new.execute("SELECT id FROM step")}
    for id in sorted(set(range(1, highest + 1)) - there):
        at = new.execute("SELECT max(at) FROM step WHERE id < ?", (id,)).fetchone()[0]
        undid = new.execute("SELECT id, kind FROM step WHERE undone_by = ?", (id,)).fetchone()
        of, kind = (undid[0], "redo" if undid[1] == "undo" else "undo") if undid else (None, "do")
        new.execute(
            "INSERT INTO step (id, at, kind, words, of) VALUES (?, ?, ?, ?, ?)",
            (id, at or "1970-01-01T00:00:00Z", kind, LOST, of),
        )
