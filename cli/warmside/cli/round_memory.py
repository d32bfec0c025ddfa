"""The numbers of the round as it was last shown, so that `done 5` means the task shown as 5.

A memory of the screen, not of the collection: it lies in the user's cache folder, and losing it
only means that tasks are numbered anew.
"""

from __future__ import annotations

import contextlib
import json
from datetime import date
from pathlib import Path

from warmside.cli.cache import cache_file


def _file_of(collection: Path) -> Path:
    return cache_file(collection, "round").with_suffix(".json")


def remember(collection: Path, on: date, keys: list[str]) -> None:
    """Keep the keys of the tasks as they were numbered from 1."""
    path = _file_of(collection)
    with contextlib.suppress(OSError):
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_text(json.dumps({"on": on.isoformat(), "keys": keys}), encoding="utf-8")


def remembered(collection: Path, on: date) -> list[str] | None:
    """The keys as they were last numbered for that day; None where that is not known."""
    try:
        kept = json.loads(_file_of(collection).read_text(encoding="utf-8"))
    except (OSError, ValueError):
        return None
    same_day = isinstance(kept, dict) and kept.get("on") == on.isoformat()
    return kept["keys"] if same_day else None
