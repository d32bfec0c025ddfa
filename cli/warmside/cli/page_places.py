"""Where the page keeps its list of phones: in the user's own folder, apart from the collection."""

from __future__ import annotations

import hashlib
from pathlib import Path


def devices_file(collection: Path) -> Path:
    """The paired phones of the collection at that place; a copy elsewhere is paired anew."""
    return _file(collection, "phones")


def address_file(collection: Path) -> Path:
    """Where the page of the collection was served last."""
    return _file(collection, "address")


def _file(collection: Path, what: str) -> Path:
    from platformdirs import user_config_path

    name = hashlib.sha256(str(collection.resolve()).encode()).hexdigest()[:16]
    return user_config_path("warmside", appauthor=False) / "page" / f"{what}-{name}"
