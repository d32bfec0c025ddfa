"""One open collection: snapshots to read, steps to write. Only writing imports SQLAlchemy."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from contextlib import contextmanager
from datetime import datetime
from functools import cache
from pathlib import Path
from typing import TYPE_CHECKING

from warmside.core.asking.ask import Ask
from warmside.core.file.reading import snapshot
from warmside.core.file.turns import turn
from warmside.core.plugins.host import Host
from warmside.core.record.book import Book
from warmside.core.record.derived import Kept
from warmside.core.record.entities import AT_THE_DESK, Sender
from warmside.core.values.errors import WarmsideError

if TYPE_CHECKING:
    from sqlalchemy import Connection, Engine

    from warmside.core.file.copies.daily import Second
    from warmside.core.record.entities import Step
    from warmside.core.record.steps import StepWriter


class Collection:
    """A collection file with its plugins; `notices` are messages for stderr."""

    def __init__(
        self,
        path: Path,
        host: Host,
        kept: Kept | None = None,
        engine: Callable[[], Engine] | None = None,
        second: Second | None = None,
    ) -> None:
        self.path = path
        self.host = host
        self.notices: list[str] = []
        self._kept = kept
        self._second = second
        self._engine = engine or cache(lambda: _engine_of(path))

    def renewed(self) -> Collection:
        """The same collection for another request, with own notices and failures of plugins."""
        return Collection(self.path, self.host.renewed(), self._kept, self._engine, self._second)

    @contextmanager
    def read(self, now: datetime) -> Iterator[Book]:
        """A consistent snapshot as of `now`."""
        with snapshot(self.path) as connection:
            yield Book(connection, now, self._kept)

    @contextmanager
    def ask(self, now: datetime) -> Iterator[Ask]:
        """As `read`, with the plugins beside the book."""
        with self.read(now) as book:
            yield Ask(book, self.host)

    @contextmanager
    def step(
        self,
        words: str,
        now: datetime,
        *,
        confirmed: bool = False,
        sender: Sender = AT_THE_DESK,
    ) -> Iterator[StepWriter]:
        """One step: all that is written within commits together, with what plugins add to it.

        A step that wrote nothing leaves no trace.
        """
        from warmside.core.file import sqlite
        from warmside.core.record.steps import StepWriter
        from warmside.core.session.reacting import react

        with self._writing(now) as connection:
            writer = StepWriter(connection, self.host.kinds, now, words, confirmed, sender)
            yield writer
            react(writer, self.host)
            writer.finish()
            if not writer.changed:
                sqlite.give_up(connection)

    def undo(self, now: datetime, number: int | None = None, sender: Sender = AT_THE_DESK) -> Step:
        """Take back the last step, or the one of that number."""
        from warmside.core.record import step_rows, undo

        with self._writing(now) as connection:
            step_rows.check_new(connection, sender)
            step = undo.step_meant(connection, number)
            undo.undo(connection, step, now, sender)
        return step

    def redo(self, now: datetime, sender: Sender = AT_THE_DESK) -> Step:
        """Put the step that was undone last in force again."""
        from warmside.core.record import step_rows, undo

        with self._writing(now) as connection:
            step_rows.check_new(connection, sender)
            undone = undo.last_to_redo(connection)
            undo.redo(connection, undone, now, sender)
        return undone

    def step_to_undo(self, number: int | None = None, sender: Sender = AT_THE_DESK) -> Step:
        """The step that `undo` would take back."""
        from warmside.core.file import sqlite
        from warmside.core.record import step_rows, undo

        with sqlite.reading(self._engine()) as connection:
            step_rows.check_new(connection, sender)
            return undo.step_meant(connection, number)

    @contextmanager
    def _writing(self, now: datetime) -> Iterator[Connection]:
        """One write transaction, in this thread's turn, after the day's backup."""
        from warmside.core.file import sqlite

        with turn(self.path):
            self._back_up_daily(now)
            with sqlite.writing(self._engine()) as connection:
                yield connection

    def _back_up_daily(self, now: datetime) -> None:
        from warmside.core.file.copies.daily import daily

        try:
            self.notices += daily(self.path, now.date(), self._second).notes
        except WarmsideError as problem:
            self.notices.append(f"no backup was made today: {problem}")


def _engine_of(path: Path) -> Engine:
    from warmside.core.file import sqlite

    return sqlite.open_engine(path)
