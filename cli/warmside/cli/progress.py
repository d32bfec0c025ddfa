"""A progress line on stderr: only on a terminal, and only after half a second."""

from __future__ import annotations

import sys
import time
from collections.abc import Callable, Iterator
from contextlib import contextmanager

PATIENCE_S = 0.5
EVERY_S = 0.1


@contextmanager
def progress(what: str, total: int) -> Iterator[Callable[[], None]]:
    """A function to call for each thing done; the line is wiped at the end."""
    if not sys.stderr.isatty():
        yield lambda: None
        return
    line = _Line(what, total)
    try:
        yield line.step
    finally:
        line.wipe()


class _Line:
    def __init__(self, what: str, total: int) -> None:
        self._what = what
        self._total = max(total, 1)
        self._done = 0
        self._next = time.monotonic() + PATIENCE_S
        self._width = 0

    def step(self) -> None:
        """Count one; draw the line now and then."""
        self._done += 1
        now = time.monotonic()
        if now >= self._next:
            self._next = now + EVERY_S
            share = min(100, 100 * self._done // self._total)
            text = f"{self._what}: {self._done} of about {self._total} ({share} %)"
            self._width = max(self._width, len(text))
            sys.stderr.write(f"\r{text:<{self._width}}")
            sys.stderr.flush()

    def wipe(self) -> None:
        """Leave no trace of the line."""
        if self._width:
            sys.stderr.write(f"\r{'':<{self._width}}\r")
            sys.stderr.flush()
