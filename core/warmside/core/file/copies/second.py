"""The folder for second copies, on another disk: what lies there, and whether it is old."""

from __future__ import annotations

from datetime import date
from pathlib import Path

from warmside.core.file.checks.whole import STALE_BACKUP_DAYS
from warmside.core.file.copies.backup import day_of
from warmside.core.file.state import identity_in


def seconds_of(path: Path, folder: Path) -> list[Path]:
    """The second copies of a collection in a folder, the newest day first."""
    own = identity_in(path)[:8]
    return sorted(folder.glob(f"{path.stem}-{own}-day-*{path.suffix}"), reverse=True)


def last_copied(path: Path, folder: Path) -> date | None:
    """The day of the newest second copy; None where there is none."""
    copies = seconds_of(path, folder)
    return day_of(copies[0]) if copies else None


def stale(path: Path, folder: Path, today: date) -> str:
    """What is to be said of second copies that are missing or old; else nothing."""
    if not folder.is_dir():
        return f"there is no folder {folder} now"
    last = last_copied(path, folder)
    if last is None:
        return f"there is none in {folder}; one is made with the first record of a day"
    days = (today - last).days
    if days <= STALE_BACKUP_DAYS:
        return ""
    return f"the newest in {folder} is {days} days old; see whether that disk is there"
