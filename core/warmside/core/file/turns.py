"""Whose turn it is: one thread at a time writes to a file or backs it up; readers do not wait.

Other programs are kept off by SQLite's locks, for which one waits by trying again and again.
"""

from __future__ import annotations

import threading
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

from warmside.core.values.errors import Busy

LONGEST_WAIT = 30.0  # seconds; common practice, no source
_guard = threading.Lock()
_turns: dict[Path, threading.RLock] = {}


@contextmanager
def turn(path: Path) -> Iterator[None]:
    """A context for which this thread alone may write to the file; Busy where it never comes."""
    with _guard:
        lock = _turns.setdefault(path.absolute(), threading.RLock())
    if not lock.acquire(timeout=LONGEST_WAIT):
        raise Busy(f"{path} is being written for long; nothing was written; try again")
    try:
        yield
    finally:
        lock.release()
