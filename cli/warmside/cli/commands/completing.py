"""What the shell may complete: codes of animals and enclosures."""

from __future__ import annotations

import sqlite3
from contextlib import closing
from typing import Any

from warmside.cli.whereis import collection_place
from warmside.core.discovery import reader


def animal_codes(ctx: Any, args: list[str], incomplete: str) -> list[tuple[str, str]]:
    """Codes of animals with their names."""
    return _codes(ctx, ("animal",), incomplete)


def enclosure_codes(ctx: Any, args: list[str], incomplete: str) -> list[tuple[str, str]]:
    """Codes of enclosures with their names."""
    return _codes(ctx, ("enclosure",), incomplete)


def subject_codes(ctx: Any, args: list[str], incomplete: str) -> list[tuple[str, str]]:
    """Codes of animals and enclosures with their names."""
    return _codes(ctx, ("animal", "enclosure"), incomplete)


def _codes(ctx: Any, tables: tuple[str, ...], incomplete: str) -> list[tuple[str, str]]:
    path = collection_place(ctx.find_root().params.get("collection")).path
    if not path.exists():
        return []
    found: list[tuple[str, str]] = []
    try:
        with closing(reader(path)) as connection:
            for table in tables:
                found += connection.execute(f"SELECT code, name FROM {table} ORDER BY code")
    except sqlite3.DatabaseError:  # no candidates; the command itself says what is wrong
        return []
    return [(c, n) for c, n in found if c.startswith(incomplete.upper())]
