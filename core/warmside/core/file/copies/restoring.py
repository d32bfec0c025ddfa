"""Putting a backup in the place of a collection file; what was there is kept beside it."""

from __future__ import annotations

import os
import sqlite3
from contextlib import closing
from datetime import datetime
from pathlib import Path
from typing import BinaryIO

from warmside.core.file.copies import backup
from warmside.core.file.half_made import begin, own_folder, part_beside
from warmside.core.file.state import file_problem, reader
from warmside.core.file.turns import turn
from warmside.core.values.errors import FileProblem

_held: list[BinaryIO] = []


def put_back(source: Path, path: Path, now: datetime) -> Path | None:
    """Make `path` hold what a backup holds, whole or not at all; returns where the old one is kept.

    Raises FileProblem where the backup is damaged or nothing can be written, Busy where another
    program writes; the file is then as it was.
    """
    coming = backup.make(source, part_beside(path, "coming"))
    try:
        with turn(path):
            kept = _keep(path, now)
            if not (kept and _overwritten(path, coming)):
                _replace(path, coming)
    except OSError as error:
        raise FileProblem(f"cannot write {path}: {error.strerror}") from error
    finally:
        coming.unlink(missing_ok=True)
    return kept


def _keep(path: Path, now: datetime) -> Path | None:
    """A copy of the file; of a damaged one byte for byte, with the journal that belongs to it."""
    if not path.exists():
        return None
    stamp = now.strftime("%Y%m%dT%H%M%S")
    folder = backup.folder_of(path)
    kept = folder / f"replaced-{stamp}-{os.urandom(3).hex()}{path.suffix}.kept"
    try:
        return backup.make(path, kept)
    except FileProblem:
        own_folder(folder)
        begin(kept)
        kept.write_bytes(bytes_of(path))
        if _journal(path).exists():
            _journal(kept).write_bytes(_journal(path).read_bytes())
    return kept


def bytes_of(path: Path) -> bytes:
    """Read what SQLite cannot; where closing it would drop this process's locks, never do."""
    file = path.open("rb")
    if os.name == "posix":
        _held.append(file)
        return file.read()
    with file:
        return file.read()


def _overwritten(path: Path, coming: Path) -> bool:
    """Whether SQLite could do it, so that programs that have the file open see old or new."""
    try:
        with closing(reader(coming)) as new, closing(reader(path)) as old:
            backup.pour(new, old)
    except sqlite3.OperationalError as error:
        raise file_problem(path, error) from error
    except sqlite3.DatabaseError:  # too damaged to be opened
        return False
    return True


def _replace(path: Path, coming: Path) -> None:
    _journal(path).unlink(missing_ok=True)  # of the old file; it must not touch the new one
    coming.replace(path)
    backup.sync(path.parent)


def _journal(path: Path) -> Path:
    return path.with_name(f"{path.name}-journal")
