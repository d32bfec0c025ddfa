"""Pictures on their way into the store: apart until all of them are sound, then all at once."""

from __future__ import annotations

import os
import shutil
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

from warmside.core.file.copies.backup import sync
from warmside.core.file.half_made import own_folder
from warmside.core.file.pictures.store import is_sound, put
from warmside.core.pictures.kept import Taken
from warmside.core.record.pictures import KeptFile
from warmside.core.values.errors import FileProblem

COMING = "coming-"


class Staged:
    """Files in a folder of their own within the store, which nobody looks for there."""

    def __init__(self, store: Path) -> None:
        self._store = store
        self._apart = store / f"{COMING}{os.urandom(6).hex()}"
        self._waiting: set[KeptFile] = set()

    def add(self, taken: Taken) -> None:
        """Put a picture that was looked at beside the others."""
        own_folder(self._store)
        own_folder(self._apart)
        kept = KeptFile(taken.digest, taken.kind)
        if kept in self._waiting:  # the same picture under two names
            return
        put(self._apart / kept.name, taken.raw)
        if kept.small:
            put(self._apart / kept.small, taken.small)
        self._waiting.add(kept)

    def settle(self) -> None:
        """Give them their place; what lies there sound already stays. Call it before the commit."""
        for kept in sorted(self._waiting):
            if not is_sound(self._store, kept):
                (self._apart / kept.name).replace(self._store / kept.name)
            if kept.small:
                (self._apart / kept.small).replace(self._store / kept.small)
        if self._waiting:
            sync(self._store)

    def clear(self) -> None:
        """Take away what was not settled."""
        shutil.rmtree(self._apart, ignore_errors=True)


@contextmanager
def staged(store: Path) -> Iterator[Staged]:
    """Files that get their place by `settle`, or none; FileProblem where they cannot be written."""
    waiting = Staged(store)
    try:
        yield waiting
    except OSError as error:
        raise FileProblem(f"cannot write pictures in {store}: {error.strerror}") from error
    finally:
        waiting.clear()
