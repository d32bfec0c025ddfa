"""Stamps on what steps touch, so that values kept across runs are dropped when it changes."""

from __future__ import annotations

import secrets
from collections.abc import Iterable

from sqlalchemy import Connection


def stamp(connection: Connection, what: Iterable[str]) -> None:
    """Give tables and kinds of event (`event:weighed`) a new token, never used before."""
    token = secrets.token_hex(8)
    rows = [(name, token) for name in sorted(set(what))]
    if rows:
        connection.exec_driver_sql(
            "INSERT INTO touched (what, stamp) VALUES (?, ?) "
            "ON CONFLICT (what) DO UPDATE SET stamp = excluded.stamp",
            rows,
        )


def touched_by(connection: Connection, step_id: int) -> set[str]:
    """What a step wrote: tables, and kinds of event wherever its events are now."""
    tables = connection.exec_driver_sql(
        "SELECT DISTINCT tbl FROM change WHERE step_id = ?", (step_id,)
    )
    kinds = connection.exec_driver_sql(
        "SELECT kind FROM event WHERE step_id = ? UNION "
        "SELECT kind FROM event_shelf WHERE step_id = ?",
        (step_id, step_id),
    )
    return {row[0] for row in tables} | {f"event:{row[0]}" for row in kinds}
