"""Values worked out from the record and kept across runs, in a file of their own.

Losing the file only means that they are worked out again. Every step stamps what it touches with
a token of its own, so that a value is found again only while all that it rests on is as it was,
also after a restored backup.
"""

from __future__ import annotations

import json
import sqlite3
from collections.abc import Callable, Sequence
from contextlib import closing
from pathlib import Path
from typing import Any

_MAKE = "CREATE TABLE IF NOT EXISTS kept (key TEXT PRIMARY KEY, stamps TEXT, value TEXT)"


class Kept:
    """The kept values of one collection; where the file cannot be used, nothing is kept."""

    def __init__(self, where: Callable[[], Path]) -> None:
        self._where = where  # asked on first use: to find the cache folder takes time

    def value(self, key: str, stamps: Sequence[str], make: Callable[[], Any]) -> Any:
        """The value that was kept under these stamps, else what `make` gives, kept from now on."""
        stamped = json.dumps(list(stamps))
        try:
            path = self._where()
            path.parent.mkdir(parents=True, exist_ok=True)
            with closing(sqlite3.connect(path, timeout=0.2)) as store, store:
                return self._in(store, key, stamped, make)
        except (OSError, sqlite3.DatabaseError):
            return make()

    def _in(
        self, store: sqlite3.Connection, key: str, stamped: str, make: Callable[[], Any]
    ) -> Any:
        store.execute(_MAKE)
        row = store.execute(
            "SELECT value FROM kept WHERE key = ? AND stamps = ?", (key, stamped)
        ).fetchone()
        if row is not None:
            return json.loads(row[0])
        text = json.dumps(make())
        store.execute("INSERT OR REPLACE INTO kept VALUES (?, ?, ?)", (key, stamped, text))
        return json.loads(text)
