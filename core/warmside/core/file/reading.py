"""Reading a collection file: one consistent snapshot by plain sqlite3, in which writes fail."""

from __future__ import annotations

import sqlite3
from collections.abc import Iterator
from contextlib import closing, contextmanager
from pathlib import Path

from warmside.core.file.state import file_problem, reader


@contextmanager
def snapshot(path: Path) -> Iterator[sqlite3.Connection]:
    """A connection within one read transaction; SQLite's complaints say what to do."""
    try:
        with closing(reader(path)) as connection:
            connection.isolation_level = None
            for pragma in ("query_only=ON", "trusted_schema=OFF"):
                connection.execute(f"PRAGMA {pragma}")
            connection.execute("BEGIN")
            yield connection
    except sqlite3.DatabaseError as error:
        raise file_problem(path, error) from error
