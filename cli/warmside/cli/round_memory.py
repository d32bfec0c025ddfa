"""The round as it was last shown, so that `done 5` means the task shown as 5.

A memory of the screen, not of the collection: it lies in the user's cache folder, and losing it
only means that tasks are numbered anew.
"""

from __future__ import annotations

import contextlib
from pathlib import Path

import msgspec

from warmside.cli.cache import cache_file
from warmside.core.asking.rounds.shown import Shown


def _file_of(collection: Path) -> Path:
    return cache_file(collection, "round").with_suffix(".json")


def remember(collection: Path, shown: Shown) -> None:
    """Keep the lines as they were numbered from 1."""
    path = _file_of(collection)
    with contextlib.suppress(OSError):
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_bytes(msgspec.json.encode(shown))


def remembered(collection: Path) -> Shown | None:
    """The lines as they were last shown; None where that is not known."""
    try:
        return msgspec.json.decode(_file_of(collection).read_bytes(), type=Shown)
    except (OSError, ValueError, msgspec.DecodeError):
        return None
