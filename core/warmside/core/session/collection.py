"""One open collection: snapshots to read, steps to write."""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import contextmanager
from datetime import datetime
from pathlib import Path

from warmside.core.file import backup, sqlite
from warmside.core.plugins.host import Host
from warmside.core.record import undo
from warmside.core.record.book import Book
from warmside.core.record.entities import Step
from warmside.core.record.steps import StepWriter
from warmside.core.values.errors import WarmsideError


class Collection:
    """A collection file with its plugins; `notices` are messages for stderr."""

    def __init__(self, path: Path, host: Host) -> None:
        self.path = path
        self.host = host
        self.notices: list[str] = []
        self._engine = sqlite.open_engine(path)

    @contextmanager
    def read(self, now: datetime) -> Iterator[Book]:
        """A consistent snapshot as of `now`."""
        with sqlite.reading(self._engine) as connection:
            yield Book(connection, self.host, now)

    @contextmanager
    def step(self, words: str, now: datetime, *, confirmed: bool = False) -> Iterator[StepWriter]:
        """One step: all that is written within commits together, with what plugins add to it.

        A step that wrote nothing leaves no trace.
        """
        self._back_up_daily(now)
        with sqlite.writing(self._engine) as connection:
            writer = StepWriter(connection, self.host, now, words, confirmed)
            yield writer
            writer.react()
            if not writer.changed:
                connection.rollback()

    def undo(self, now: datetime, number: int | None = None) -> Step:
        """Take back the last step, or the one of that number."""
        self._back_up_daily(now)
        with sqlite.writing(self._engine) as connection:
            last = undo.last_to_undo if number is None else None
            step = last(connection) if last else undo.step_numbered(connection, number or 0)
            undo.undo(connection, step, now)
        return step

    def redo(self, now: datetime) -> Step:
        """Put the step that was undone last in force again."""
        with sqlite.writing(self._engine) as connection:
            undone = undo.last_to_redo(connection)
            undo.redo(connection, undone, now)
        return undone

    def step_to_undo(self, number: int | None = None) -> Step:
        """The step that `undo` would take back."""
        with sqlite.reading(self._engine) as connection:
            if number is None:
                return undo.last_to_undo(connection)
            return undo.step_numbered(connection, number)

    def _back_up_daily(self, now: datetime) -> None:
        try:
            backup.daily(self.path, now.date())
        except WarmsideError as problem:
            self.notices.append(f"no backup was made today: {problem}")
