"""Values worked out from the record and kept across runs, in a file of their own.

Losing the file only means that they are worked out again. Every step stamps what it touches with
a token of its own, so that a value is found again only while all that it rests on is as it was,
also after a restored backup; another version of the program works all of them out anew.
"""

from __future__ import annotations

import contextlib
import json
import sqlite3
from collections.abc import Callable, Iterable, Mapping, Sequence
from contextlib import closing
from pathlib import Path
from typing import Any

from warmside.core import __version__

_MAKE = "CREATE TABLE IF NOT EXISTS kept (key TEXT PRIMARY KEY, stamps TEXT, value TEXT)"
_MAKE_EACH = (
    "CREATE TABLE IF NOT EXISTS kept_each (key TEXT, id INTEGER, stamps TEXT, value TEXT, "
    "PRIMARY KEY (key, id)) WITHOUT ROWID"
)
_NOTHING = "null"
MakeEach = Callable[[Sequence[int]], Mapping[int, Any]]


class Kept:
    """The kept values of one collection; where the file cannot be used, nothing is kept."""

    def __init__(self, where: Callable[[], Path]) -> None:
        self._where = where  # asked on first use: to find the cache folder takes time

    def value(self, key: str, stamps: Sequence[str], make: Callable[[], Any]) -> Any:
        """The value that was kept under these stamps, else what `make` gives, kept from now on."""
        stamped = _stamped(stamps)
        try:
            with closing(self._opened()) as store, store:
                return self._in(store, key, stamped, make)
        except (OSError, sqlite3.DatabaseError):
            return make()

    def each(self, key: str, stamps: Mapping[int, Sequence[Any]], make: MakeEach) -> dict[int, Any]:
        """As `value`, one for each animal under its own stamps; `make` gets those not found.

        An animal that `make` gives nothing for has no value, and that is kept, too.
        """
        stamped = {id: _stamped(mine) for id, mine in stamps.items()}
        found = self._read_each(key, stamped)
        missing = [id for id in stamped if id not in found]
        if missing:
            made = texts_of(missing, make)
            self._keep_each(key, [(id, stamped[id], text) for id, text in made.items()])
            found |= made
        return {id: json.loads(text) for id, text in found.items() if text != _NOTHING}

    def _opened(self) -> sqlite3.Connection:
        path = self._where()
        path.parent.mkdir(parents=True, exist_ok=True)
        return sqlite3.connect(path, timeout=0.2)

    def _read_each(self, key: str, stamped: Mapping[int, str]) -> dict[int, str]:
        query = "SELECT id, stamps, value FROM kept_each WHERE key = ?"
        one = [*stamped] if len(stamped) == 1 else []
        try:
            with closing(self._opened()) as store, store:
                store.execute(_MAKE_EACH)
                rows = store.execute(query + " AND id = ?" * len(one), (key, *one))
                return {id: text for id, mine, text in rows if stamped.get(id) == mine}
        except (OSError, sqlite3.DatabaseError):
            return {}

    def _keep_each(self, key: str, rows: Iterable[tuple[int, str, str]]) -> None:
        insert = "INSERT OR REPLACE INTO kept_each VALUES (?, ?, ?, ?)"
        with (
            contextlib.suppress(OSError, sqlite3.DatabaseError),
            closing(self._opened()) as store,
            store,
        ):
            store.executemany(insert, [(key, *row) for row in rows])

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


def made_each(animals: Sequence[int], make: MakeEach) -> dict[int, Any]:
    """What `make` gives for each animal, as it would be found again."""
    texts = texts_of(animals, make)
    return {id: json.loads(text) for id, text in texts.items() if text != _NOTHING}


def texts_of(animals: Sequence[int], make: MakeEach) -> dict[int, str]:
    """What `make` gives for each animal as JSON, also that it gives nothing."""
    made = make(animals)
    return {id: _encoded(made[id]) if id in made else _NOTHING for id in animals}


def _stamped(stamps: Sequence[Any]) -> str:
    return _encoded([__version__, *stamps])


_encoded = json.JSONEncoder(separators=(",", ":")).encode
