"""The numbers of the round as it was last shown, so that `done 5` means the task shown as 5.

A memory of the screen, not of the collection: it lies in the user's cache folder, and losing it
only means that tasks are numbered anew.
"""

from __future__ import annotations

import contextlib
import hashlib
import json
from datetime import date
from pathlib import Path


def _file_of(collection: Path) -> Path:
    from platformdirs import user_cache_path

    name = hashlib.sha256(str(collection.resolve()).encode()).hexdigest()[:16]
    return user_cache_path("warmside", appauthor=False) / f"round-{name}.json"


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
