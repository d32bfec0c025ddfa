"""A progress line on stderr: only on a terminal, and only after half a second.

rich draws it; rich takes longer to import than most commands run, so it is imported when the half
second has passed.
"""

from __future__ import annotations

import sys
import time
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from rich.progress import Progress

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


@contextmanager
def waiting(words: Callable[[int], str]) -> Iterator[Callable[[int], None]]:
    """A function to call with how much has come so far, of which nobody knows how much it will be.

    It is to be called again while nothing comes; `words` says what the line then shows.
    """
    if not sys.stderr.isatty():
        yield lambda so_far: None
        return
    line = _Line(words(0), None)
    try:
        yield lambda so_far: line.say(words(so_far))
    finally:
        line.wipe()


class _Line:
    def __init__(self, what: str, total: int | None) -> None:
        self._what = what
        self._total = total
        self._done = 0
        self._next = time.monotonic() + PATIENCE_S
        self._shown: Progress | None = None

    def step(self) -> None:
        """Count one; draw the line now and then."""
        self._done += 1
        self._draw()

    def say(self, what: str) -> None:
        """Say this in the line from now on; draw it now and then."""
        self._what = what
        self._draw()

    def _draw(self) -> None:
        now = time.monotonic()
        if now >= self._next:
            self._next = now + EVERY_S
            if self._shown is None:
                self._shown = _started(self._what, self._total)
            task = self._shown.task_ids[0]
            self._shown.update(task, completed=self._done, refresh=True, what=self._what)

    def wipe(self) -> None:
        """Leave no trace of the line."""
        if self._shown is not None:
            self._shown.stop()


def _started(what: str, total: int | None) -> Progress:
    """The line, drawn when it is told to: no thread of its own beside the file's."""
    from rich.console import Console
    from rich.progress import (
        BarColumn,
        Progress,
        TaskProgressColumn,
        TextColumn,
        TimeElapsedColumn,
        TimeRemainingColumn,
    )

    words = TextColumn("{task.fields[what]}", markup=False)
    known = (BarColumn(), TaskProgressColumn(), TimeRemainingColumn())
    columns = (words, *known) if total is not None else (words, TimeElapsedColumn())
    shown = Progress(*columns, console=Console(stderr=True), transient=True, auto_refresh=False)
    shown.add_task("", total=None if total is None else max(total, 1), what=what)
    shown.start()
    return shown
