"""Pictures beside the copies of a collection: carried along once, and brought back from there."""

from __future__ import annotations

import contextlib
import shutil
import sqlite3
from collections.abc import Iterable
from contextlib import closing
from pathlib import Path

from warmside.core.file.copies.backup import changed
from warmside.core.file.pictures.places import kept_for_copies, pictures_of, places
from warmside.core.file.pictures.staging import COMING
from warmside.core.file.pictures.store import Carried, carry, mend
from warmside.core.file.state import reader
from warmside.core.record.pictures import KeptFile, files_named
from warmside.core.values.counts import counted
from warmside.core.values.errors import FileProblem


def copy_along(path: Path, copy: Path) -> None:
    """Put beside a copy each picture that it names and that is not there yet; FileProblem."""
    target = pictures_of(copy)
    try:
        carry(named_in(copy), places(path), target)
    except OSError as error:
        raise FileProblem(f"cannot copy pictures to {target}: {error.strerror}") from error


def bring_back(path: Path, others: Iterable[Path] = ()) -> Carried:
    """Make the pictures of a collection whole from its copies, and from those of other files."""
    folder = pictures_of(path)
    everywhere = [*places(path), *(place for other in others for place in places(other))]
    try:
        return mend(named_in(path), list(dict.fromkeys(everywhere)), folder)
    except OSError as error:
        raise FileProblem(f"cannot write pictures in {folder}: {error.strerror}") from error


def named_in(path: Path) -> set[KeptFile]:
    """The files that a collection or a copy of it names; none where it cannot be read."""
    try:
        with closing(reader(path)) as connection:
            return files_named(connection)
    except sqlite3.DatabaseError:
        return set()


def missing_in(path: Path) -> list[KeptFile]:
    """What a collection names and does not have beside it."""
    folder = pictures_of(path)
    return [kept for kept in sorted(named_in(path)) if not (folder / kept.name).is_file()]


def lost_words(carried: Carried) -> list[str]:
    """A line for pictures of which no file is left anywhere."""
    if not carried.lost:
        return []
    return [f"{counted(len(carried.lost), 'picture is', 'pictures are')} found in no copy"]


def clear_halves(path: Path, limit: float) -> None:
    """Take away what a killed program left half made before that moment, in seconds."""
    for folder in (pictures_of(path), kept_for_copies(path)):
        for half in (*folder.glob("*.part"), *folder.glob(f"{COMING}*")):
            if 0 < changed(half) < limit:
                shutil.rmtree(half, ignore_errors=True)
                with contextlib.suppress(OSError):
                    half.unlink()
