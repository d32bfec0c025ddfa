"""Which version of a collection file is there: other with every commit and every replaced file.

Read on one connection that is kept: opening one for each look would take forty times as long, and
closing another descriptor of the file would drop this process's locks (POSIX).
"""

from __future__ import annotations

import itertools
import sqlite3
import threading
from pathlib import Path
from urllib.parse import quote

from warmside.core.file.journals import strange_journal

Seen = tuple[int, ...]


class Version:
    """Tells versions of one file apart; threads may share it."""

    def __init__(self, path: Path) -> None:
        self._path = path
        self._lock = threading.Lock()
        self._connection: sqlite3.Connection | None = None
        self._file: tuple[int, int] | None = None
        self._never_twice = itertools.count(1)

    def now(self) -> Seen:
        """What is equal to an earlier one only if nobody wrote; never where it cannot be read."""
        with self._lock:
            try:
                return self._read()
            except (OSError, sqlite3.Error):
                self._close()
                return (next(self._never_twice),)

    def _read(self) -> Seen:
        about = self._path.stat()
        file = (about.st_dev, about.st_ino)
        if self._connection is None or file != self._file:
            self._close()
            if strange := strange_journal(self._path):
                raise OSError(strange)
            uri = f"file:{quote(str(self._path.resolve()))}?mode=rw"
            self._connection = sqlite3.connect(uri, uri=True, timeout=1, check_same_thread=False)
            self._file = file
        (version,) = self._connection.execute("PRAGMA data_version").fetchone()
        return (*file, about.st_size, int(version))

    def _close(self) -> None:
        if self._connection is not None:
            self._connection.close()
        self._connection = None
