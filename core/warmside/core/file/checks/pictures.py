"""Whether the files of pictures lie where they should, as they were kept."""

from __future__ import annotations

import sqlite3
from collections.abc import Iterator
from pathlib import Path

from warmside.core.file.pictures.places import pictures_of
from warmside.core.file.pictures.store import is_sound
from warmside.core.record.pictures import KeptFile, files_shown

MEND = "bring them back from the copies: warmside picture mend"
NAMED = 3
BAD_NAME = "length(digest) <> 64 OR digest GLOB '*[^0-9a-f]*'"
SIZES = "SELECT digest, kind, max(size_bytes) FROM picture GROUP BY digest, kind"
NUMBERS = "SELECT min(id) FROM picture WHERE digest = ? AND kind = ?"


def check(connection: sqlite3.Connection, path: Path) -> Iterator[tuple[str, str]]:
    """What was looked at, and what is wrong; every file is read."""
    files = sorted(files_shown(connection))
    if not files and not _named_badly(connection):
        return
    yield "pictures have names that are digests", _named_badly(connection)
    folder = pictures_of(path)
    missing = [f for f in files if not (folder / f.name).is_file()]
    yield "pictures are there", _told(connection, missing, "missing")
    changed = [f for f in files if f not in missing and not is_sound(folder, f)]
    yield "pictures are as they were kept", _told(connection, changed, "changed")


def daily_problems(connection: sqlite3.Connection, path: Path) -> Iterator[tuple[str, str]]:
    """What can be told without reading the files: which are missing, or of another size."""
    if not files_shown(connection):
        return
    folder, wrong = pictures_of(path), []
    for digest, kind, size in connection.execute(SIZES):
        file = folder / KeptFile(digest, kind).name
        if not file.is_file() or file.stat().st_size != size:
            wrong.append(KeptFile(digest, kind))
    yield "pictures", _told(connection, wrong, "missing or changed")


def _named_badly(connection: sqlite3.Connection) -> str:
    query = f"SELECT count(*) FROM picture WHERE {BAD_NAME}"
    number = connection.execute(query).fetchone()[0] if _has_table(connection) else 0
    return f"{number} name no file" if number else ""


def _has_table(connection: sqlite3.Connection) -> bool:
    query = "SELECT count(*) FROM sqlite_schema WHERE type = 'table' AND name = 'picture'"
    return bool(connection.execute(query).fetchone()[0])


def _told(connection: sqlite3.Connection, files: list[KeptFile], what: str) -> str:
    """`2 are missing (pictures 3, 8); bring them back …`."""
    if not files:
        return ""
    numbers = [connection.execute(NUMBERS, (f.digest, f.kind)).fetchone()[0] for f in files[:NAMED]]
    more = f" and {len(files) - NAMED} more" if len(files) > NAMED else ""
    named = ", ".join(map(str, numbers))
    be, plural = ("is", "") if len(files) == 1 else ("are", "s")
    return f"{len(files)} {be} {what} (picture{plural} {named}{more}); {MEND}"
