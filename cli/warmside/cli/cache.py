"""Where a collection's memories lie: files in the user's cache folder, which may be lost."""

from __future__ import annotations

import hashlib
from pathlib import Path


def cache_file(collection: Path, what: str) -> Path:
    """The file for one kind of memory of one collection."""
    from platformdirs import user_cache_path

    name = hashlib.sha256(str(collection.resolve()).encode()).hexdigest()[:16]
    return user_cache_path("warmside", appauthor=False) / f"{what}-{name}"
