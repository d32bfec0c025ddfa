"""Reading a collection file: one consistent snapshot by plain sqlite3, in which writes fail."""

from __future__ import annotations

import sqlite3
from collections.abc import Iterator
from contextlib import closing, contextmanager
from pathlib import Path

from warmside.core.file.state import file_problem, reader

# In KiB. With SQLite's usual 2 MB the newest rows of each animal, which lie on the same pages, are
# read from the file again for each of them.
CACHE = "cache_size=-65536"


@contextmanager
def snapshot(path: Path) -> Iterator[sqlite3.Connection]:
    """A connection within one read transaction; SQLite's complaints say what to do."""
    try:
        with closing(reader(path)) as connection:
            connection.isolation_level = None
            for pragma in ("query_only=ON", "trusted_schema=OFF", CACHE):
                connection.execute(f"PRAGMA {pragma}")
            connection.execute("BEGIN")
            yield connection
    except sqlite3.DatabaseError as error:
        raise file_problem(path, error) from error
