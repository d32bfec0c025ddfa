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
from typing import Any, TypeVar

from msgspec import MsgspecError
from msgspec.msgpack import Decoder, encode

from warmside.core import __version__

_MAKE = "CREATE TABLE IF NOT EXISTS kept (key TEXT PRIMARY KEY, stamps TEXT, value TEXT)"
_MAKE_EACH = (
    "CREATE TABLE IF NOT EXISTS kept_each (key TEXT, id INTEGER, stamps BLOB, value BLOB, "
    "PRIMARY KEY (key, id)) WITHOUT ROWID"
)
T = TypeVar("T")
MakeEach = Callable[[Sequence[int]], Mapping[int, T]]


class Kept:
    """The kept values of one collection; where the file cannot be used, nothing is kept."""

    def __init__(self, where: Callable[[], Path]) -> None:
        self._where = where  # asked on first use: to find the cache folder takes time

    def value(self, key: str, stamps: Sequence[str], make: Callable[[], Any]) -> Any:
        """The value that was kept under these stamps, else what `make` gives, kept from now on."""
        stamped = json.dumps([__version__, *stamps])
        try:
            with closing(self._opened()) as store, store:
                return self._in(store, key, stamped, make)
        except (OSError, sqlite3.DatabaseError):
            return make()

    def each(
        self, key: str, stamps: Mapping[int, Any], make: MakeEach[T], shape: type[T]
    ) -> dict[int, T]:
        """As `value`, one for each animal under its own stamps; `make` gets those not found.

        An animal that `make` gives nothing for has no value, and that is kept, too.
        """
        stamped = {id: encode((__version__, mine)) for id, mine in stamps.items()}
        found = self._read_each(key, stamped, shape)
        missing = [id for id in stamped if id not in found]
        if missing:
            made = make(missing)
            found |= {id: made.get(id) for id in missing}
            self._keep_each(key, [(id, stamped[id], encode(found[id])) for id in missing])
        return {id: value for id, value in found.items() if value is not None}

    def _opened(self) -> sqlite3.Connection:
        path = self._where()
        path.parent.mkdir(parents=True, exist_ok=True)
        return sqlite3.connect(path, timeout=0.2)

    def _read_each(
        self, key: str, stamped: Mapping[int, bytes], shape: type[T]
    ) -> dict[int, T | None]:
        """What is found under the same stamps and can be read; None where nothing was made."""
        query = "SELECT id, stamps, value FROM kept_each WHERE key = ?"
        one = [*stamped] if len(stamped) == 1 else []
        read: Decoder[T | None] = Decoder(shape | None)
        try:
            with closing(self._opened()) as store, store:
                store.execute(_MAKE_EACH)
                rows = store.execute(query + " AND id = ?" * len(one), (key, *one))
                return {id: read.decode(told) for id, mine, told in rows if stamped.get(id) == mine}
        except (OSError, sqlite3.DatabaseError, MsgspecError):
            return {}

    def _keep_each(self, key: str, rows: Iterable[tuple[int, bytes, bytes]]) -> None:
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
