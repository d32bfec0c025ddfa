"""Where the files of pictures lie: beside the collection, and once for all copies in a folder.

A file is named by the digest of its content, so that it is the same wherever it lies.
"""

from __future__ import annotations

import re
from pathlib import Path

OF_BACKUPS = "-backups"
SHARED = "shared.pictures"  # with an ending, which no copy of a file without one has
SECOND = re.compile(r"(.+-[0-9a-f]{8})-day-\d{4}-\d{2}-\d{2}")


def pictures_of(path: Path) -> Path:
    """The folder of a collection's own pictures, named by it; for a copy that of all copies."""
    if path.parent.name.endswith(OF_BACKUPS):
        return path.parent / SHARED
    if second := SECOND.fullmatch(path.stem):
        return path.with_name(f"{second[1]}-pictures")
    return path.with_name(f"{path.name}-pictures")


def kept_for_copies(path: Path) -> Path:
    """The folder where each picture lies once more, for all copies beside a collection."""
    return path.with_name(path.name + OF_BACKUPS) / SHARED


def places(path: Path) -> tuple[Path, ...]:
    """Where a picture of that collection may be found, its own folder first."""
    return tuple(dict.fromkeys((pictures_of(path), kept_for_copies(path))))
