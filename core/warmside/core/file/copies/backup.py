"""Verified copies of a collection file, made through SQLite's backup API."""

from __future__ import annotations

import contextlib
import os
import re
import sqlite3
from contextlib import closing
from datetime import date, datetime
from pathlib import Path

from warmside.core.file.half_made import begin, own_folder, part_beside
from warmside.core.file.state import LONGEST, file_problem, reader
from warmside.core.file.turns import turn
from warmside.core.values.counts import counted
from warmside.core.values.errors import FileProblem, NotFound

DAY_IN_NAME = re.compile(r"-(\d{4})-?(\d{2})-?(\d{2})(?!\d)")


def folder_of(path: Path) -> Path:
    """The folder beside the file where its backups lie."""
    return path.with_name(f"{path.name}-backups")


def make(path: Path, target: Path) -> Path:
    """Write a verified copy of `path` to `target`; raises FileProblem, leaving `target` as it was.

    The copy is one consistent state even while others write.
    """
    part = part_beside(target)
    try:
        own_folder(target.parent)
        begin(part, path)  # so that a folder that cannot be written is no bad collection
        _copy(path, part)
        sync(part)
        part.replace(target)
        sync(target.parent)
    except sqlite3.DatabaseError as error:
        raise file_problem(path, error) from error
    except OSError as error:
        raise FileProblem(f"cannot write the backup {target}: {error.strerror}") from error
    finally:
        with contextlib.suppress(OSError):  # of which the keeper has been told already
            part.unlink(missing_ok=True)
    return target


def _copy(path: Path, part: Path) -> None:
    with closing(reader(path)) as source, closing(sqlite3.connect(part)) as copy:
        copy.setlimit(sqlite3.SQLITE_LIMIT_LENGTH, LONGEST)
        pour(source, copy)
        verdict = copy.execute("PRAGMA integrity_check").fetchone()[0]
    if verdict != "ok":
        raise FileProblem(
            f"{path} is damaged ({verdict}); its backups are in {folder_of(path)}: "
            "warmside file restore"
        )


def pour(source: sqlite3.Connection, target: sqlite3.Connection) -> None:
    """Make `target` hold what `source` holds, in one transaction; OperationalError where locked."""

    def give_up_when_busy(status: int, _remaining: int, _total: int) -> None:
        if status in (sqlite3.SQLITE_BUSY, sqlite3.SQLITE_LOCKED):  # else it would try for ever
            raise sqlite3.OperationalError("database is locked")

    source.backup(target, progress=give_up_when_busy)


def sync(path: Path) -> None:
    """Push to the disk; a folder can only be synced on POSIX."""
    if path.is_dir() and os.name != "posix":
        return
    handle = os.open(path, os.O_RDONLY if path.is_dir() else os.O_RDWR)
    try:
        os.fsync(handle)
    finally:
        os.close(handle)


def changed(path: Path) -> float:
    """When a file was changed last, in seconds; 0 where another program has taken it away."""
    try:
        return path.stat().st_mtime
    except OSError:
        return 0.0


def day_of(copy: Path) -> date:
    """The day that a copy's name tells; of one named otherwise, when its file was changed.

    A copy that was carried to another disk has a new time, though it is as old as it was.
    """
    with contextlib.suppress(ValueError):
        if told := DAY_IN_NAME.findall(copy.name):
            return date(*map(int, told[-1]))
    return date.fromtimestamp(changed(copy))


def newest_sound(path: Path, today: date) -> Path | None:
    """The newest backup that is not doubtful, by its day; one of a day to come only at a pinch."""
    found = [p for p in all_of(path) if not p.name.startswith("doubtful-")]
    return max(found, key=lambda p: (day_of(p) <= today, day_of(p), changed(p)), default=None)


def before(path: Path, what: str, now: datetime) -> Path:
    """A backup before a migration or restore, with the instant in its name."""
    return _stamped(path, f"before-{what}", now)


def asked_for(path: Path, now: datetime) -> Path:
    """A backup that the keeper asked for, with the instant in its name."""
    return _stamped(path, "kept", now)


def _stamped(path: Path, what: str, now: datetime) -> Path:
    target = folder_of(path) / f"{what}-{now.strftime('%Y%m%dT%H%M%S')}{path.suffix}"
    with turn(path):
        return make(path, free_name(target))


def free_name(target: Path) -> Path:
    """The path itself, or with a number where a copy of that name is there: none is replaced."""
    free, number = target, 1
    while free.exists():
        number += 1
        free = target.with_name(f"{target.stem}-{number}{target.suffix}")
    return free


def all_of(path: Path) -> list[Path]:
    """The backups of a file, newest first."""
    found = [
        p
        for p in folder_of(path).glob(f"*{path.suffix}")
        if p.suffix == path.suffix  # where the file has no ending, halves of copies have one
    ]
    return sorted(found, key=lambda p: (changed(p), p.name), reverse=True)


def no_file(path: Path) -> NotFound:
    """That there is no collection, and how to get one; a lost one is put back, not made anew."""
    copies = all_of(path)
    if copies:
        found = counted(len(copies), "copy of it lies", "copies of it lie")
        return NotFound(
            f"there is no collection at {path}, but {found} in "
            f"{folder_of(path)}; put the newest back: warmside file restore"
        )
    return NotFound(f"there is no collection at {path} yet; make one with: warmside new")
