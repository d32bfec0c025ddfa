"""What a command works with: the collection, opened when first needed, and the moment."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from contextlib import contextmanager
from datetime import date, datetime
from pathlib import Path
from typing import TYPE_CHECKING, Any

from warmside.core.file.state import read_state
from warmside.core.values.errors import Refused, WarmsideError
from warmside.core.values.moments import PartialDate, When, parse_day, parse_typed_date, parse_when

if TYPE_CHECKING:  # help needs a session, but no collection
    from warmside.core.asking.ask import Ask
    from warmside.core.record.book import Book
    from warmside.core.record.entities import Sender
    from warmside.core.record.steps import StepWriter
    from warmside.core.session.collection import Collection


class Session:
    """One command's work on one collection file; `now` is aware and never read again.

    `asks` is true on a terminal, where a prompt may be answered. `needs_plugin` names a plugin
    without which this command may not open the collection. `sender` is who writes, where that is
    not the keeper at the desk.
    """

    def __init__(
        self,
        path: Path,
        now: datetime,
        open_file: Callable[[Path], Collection],
        asks: bool = False,
        needs_plugin: str = "",
        sender: Sender | None = None,
    ) -> None:
        self.path = path
        self.now = now
        self.asks = asks
        self.sender = sender
        self._open_file = open_file
        self._needs_plugin = needs_plugin
        self._collection: Collection | None = None
        self._written: StepWriter | None = None

    def open(self) -> Collection:
        """The collection, opened now if it is not, brought up to date first."""
        if self._collection is None:
            self._collection = self._open_file(self.path)
        needed = self._needs_plugin
        if needed and needed not in self._collection.host.manifests:
            enabled = needed in read_state(self.path).enabled
            what = (
                "it is left out: start without --no-plugins and --without, or see: "
                f"warmside plugin show {needed}"
                if enabled
                else f"enable it: warmside plugin enable {needed}"
            )
            raise Refused(f"plugin {needed} is not at work in this collection; {what}")
        return self._collection

    @property
    def opened(self) -> Collection | None:
        """The collection if a command has opened it."""
        return self._collection

    @contextmanager
    def read(self) -> Iterator[Book]:
        """A context with a Book: one consistent snapshot."""
        with self.open().read(self.now) as book:
            yield book

    @contextmanager
    def ask(self) -> Iterator[Ask]:
        """A context with an Ask: as `read`, with the plugins beside the book.

        What the session's last step has read and left as it was is not read again to answer it.
        """
        with self.open().ask(self.now) as ask:
            if self._written is not None:
                from warmside.core.record.steps import pass_on

                pass_on(self._written, ask.book)
            yield ask

    def asking(self, book: Book) -> Ask:
        """The plugins beside a book, such as the one of a step that is being written."""
        from warmside.core.asking.ask import Ask

        return Ask(book, self.open().host)

    @contextmanager
    def step(self, words: str, *, confirmed: bool = False) -> Iterator[StepWriter]:
        """A context with a StepWriter: one step, told in `words`."""
        with self.open().step(words, self.now, confirmed=confirmed, **self.sent) as writer:
            yield writer
        self._written = writer

    def objections(self, writer: StepWriter) -> list[tuple[str, WarmsideError]]:
        """What each plugin has against what a step has recorded so far; the step goes on."""
        from warmside.core.session.reacting import objections

        return objections(writer, self.open().host)

    @property
    def sent(self) -> dict[str, Sender]:
        """Who writes, as steps, undo and redo take it; nothing at the desk."""
        return {} if self.sender is None else {"sender": self.sender}

    @property
    def written(self) -> int | None:
        """The number of the last step that this session wrote; None where it wrote nothing."""
        return self._written.id if self._written is not None and self._written.changed else None

    def when(self, text: str | None, book: Book) -> When:
        """The moment that was typed after --at; now, if nothing was."""
        return parse_when(text or "now", self.now, book.home.zone, book.home.dates)

    def portrait(self, book: Book, animal_id: int) -> bytes | None:
        """The newest photo that shows an animal, small, as JPEG; None where there is none."""
        from warmside.core.asking.pictures.portraits import portraits
        from warmside.core.file.pictures.places import places
        from warmside.core.file.pictures.store import small_of
        from warmside.core.record.pictures import KeptFile

        photos = portraits(book.pictures_of(animal=animal_id))
        if not photos:
            return None
        return small_of(places(self.path), KeptFile(photos[-1].digest, photos[-1].kind))

    def day(self, text: str | None, book: Book) -> date:
        """The day that was typed after --on; today, if nothing was."""
        return self.typed_day(text, book) if text else book.today

    def typed_day(self, text: str, book: Book) -> date:
        """The day that was typed."""
        return parse_day(text, self.now, book.home.zone, book.home.dates)

    def typed_date(self, text: str, book: Book) -> PartialDate:
        """What was typed where a month or a year will do: the first or the last day of a span."""
        return parse_typed_date(text, self.now, book.home.zone, book.home.dates)


def session_of(context: Any) -> Session:
    """The session of a command, from its Typer context."""
    session = context.find_object(Session)
    assert session is not None, "only commands under the root have a session"
    return session  # type: ignore[no-any-return]
