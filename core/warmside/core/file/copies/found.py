"""The copies of a collection, looked into: whose they are, how far they go, if they are sound."""

from __future__ import annotations

import sqlite3
from collections.abc import Iterable
from contextlib import closing
from datetime import datetime
from pathlib import Path

from msgspec import Struct

from warmside.core.file.copies import backup
from warmside.core.file.state import identity_of, read_state, reader
from warmside.core.record import sums
from warmside.core.values.errors import WarmsideError
from warmside.core.values.moments import parse_instant

INSIDE = (
    "SELECT (SELECT max(id) FROM step), (SELECT at FROM step ORDER BY id DESC LIMIT 1), "
    "(SELECT count(*) FROM animal), (SELECT count(*) FROM event)"
)


class Copy(Struct, frozen=True):
    """A copy and what it holds; `problem` says why it is no good, else it is empty."""

    path: Path
    identity: str = ""
    step: int = 0
    at: datetime | None = None  # of its last step; None where there is none
    animals: int = 0
    events: int = 0
    problem: str = ""


def look_into(path: Path) -> Copy:
    """What a copy holds, with all its checksums looked at."""
    try:
        read_state(path)
        with closing(reader(path)) as connection:
            connection.execute("PRAGMA query_only = ON")
            return _inside(path, connection)
    except (WarmsideError, sqlite3.DatabaseError, ValueError, TypeError) as error:
        return Copy(path, problem=f"damaged ({str(error).split(';')[0]})")


def _inside(path: Path, connection: sqlite3.Connection) -> Copy:
    step, at, animals, events = connection.execute(INSIDE).fetchone()
    verdict = connection.execute("PRAGMA quick_check(1)").fetchone()[0]
    wrong = sums.wrong(connection)
    changed = [
        *(f"event {id}" for id in sorted(wrong.events)),
        *(f"step {id}" for id in sorted(wrong.steps)),
        *sorted(wrong.tables),
        *(f"{name} of step {step}" for name, step in sorted(wrong.series)),
    ]
    problem = "" if verdict == "ok" else f"damaged ({verdict})"
    if changed and not problem:
        problem = f"not as it was recorded: {', '.join(changed[:3])}"
    when = parse_instant(at) if at else None
    return Copy(path, identity_of(connection), step or 0, when, animals, events, problem)


def newest_first(found: Iterable[Copy], now: datetime) -> list[Copy]:
    """By the last step inside, not by the files' times; a clock that ran ahead comes last."""

    def place(copy: Copy) -> tuple[bool, float, int]:
        ahead = is_ahead(copy, now)
        return not ahead, copy.at.timestamp() if copy.at else 0.0, copy.step

    return sorted(found, key=place, reverse=True)


def is_ahead(copy: Copy, now: datetime) -> bool:
    """Whether the last step of a copy is of a moment that has not come yet."""
    return copy.at is not None and copy.at > now


def of_collection(path: Path, now: datetime) -> list[Copy]:
    """All copies beside a file, newest first."""
    return newest_first(map(look_into, backup.all_of(path)), now)
