"""Stamps on what steps touch, so that values kept across runs are dropped when it changes.

A table is stamped by its name, a kind of event as `event:weighed`, and the events of that kind of
one animal as `event:weighed:12`. What bears no stamp of its own was last touched before the first
step that gave such stamps, so it bears the one of that step.
"""

from __future__ import annotations

import secrets
from collections.abc import Iterable
from typing import TYPE_CHECKING, Any

from warmside.core.record.sums import COUNT_STAMPS, stamp_for

if TYPE_CHECKING:  # the round reads stamps without it
    from collections.abc import Callable

    from sqlalchemy import Connection

FIRST = "first stamps of animals' events"


def stamp(connection: Connection, what: Iterable[str]) -> None:
    """Give all that is named a new token, never used before."""
    token = secrets.token_hex(4)
    rows = [(name, stamp_for(name, token)) for name in sorted(set(what))]
    if rows:
        connection.exec_driver_sql(
            "INSERT OR IGNORE INTO touched (what, stamp) VALUES (?, ?)",
            (FIRST, stamp_for(FIRST, token)),
        )
        connection.exec_driver_sql(
            "INSERT INTO touched (what, stamp) VALUES (?, ?) "
            "ON CONFLICT (what) DO UPDATE SET stamp = excluded.stamp",
            rows,
        )
        connection.exec_driver_sql(COUNT_STAMPS)


def touched_by(connection: Connection, step_id: int) -> set[str]:
    """What a step wrote: tables, and events wherever these are now, also those it corrected."""
    tables = connection.exec_driver_sql(
        "SELECT DISTINCT tbl FROM change WHERE step_id = ?", (step_id,)
    )
    events = connection.exec_driver_sql(
        "SELECT kind, animal_id FROM event WHERE step_id = ? UNION "
        "SELECT kind, animal_id FROM event_shelf WHERE step_id = ? UNION "
        "SELECT e.kind, e.animal_id FROM change c JOIN event e "
        "ON e.id = json_extract(c.key, '$.id') WHERE c.step_id = ? AND c.tbl = 'event'",
        (step_id, step_id, step_id),
    )
    return {row[0] for row in tables} | of_events((row[0], row[1]) for row in events)


def of_events(events: Iterable[tuple[str, int | None]]) -> set[str]:
    """What events touch, each given as its kind and its animal."""
    found = set()
    for kind, animal in set(events):
        found.add(f"event:{kind}")
        if animal is not None:
            found.add(f"event:{kind}:{animal}")
    return found


def by_animal(
    rows: Callable[[str, tuple[Any, ...]], list[tuple[Any, ...]]], kind: str
) -> dict[int, str]:
    """The stamps of the events of a kind (`event:weighed`), by animal; of others, see `FIRST`."""
    start = f"{kind}:"
    found = rows(
        "SELECT CAST(substr(what, ?) AS INTEGER), stamp FROM touched WHERE what >= ? AND what < ?",
        (len(start) + 1, start, f"{kind};"),
    )
    return dict(found)
