"""One collection behind a face that runs for long: each request has a session of its own.

Whatever the keeper does at the desk meanwhile is seen by the next request: the time of day, a
plugin switched on or off, a file that was restored or replaced. A newly installed version of a
plugin is not, since Python has imported the old one.
"""

from __future__ import annotations

import gc
import threading
from collections.abc import Callable
from datetime import datetime
from pathlib import Path
from typing import Any

from warmside.core.file.state import FileState, read_state
from warmside.core.record.entities import Sender
from warmside.core.session.collection import Collection
from warmside.core.session.session import Session

__all__ = ("Live", "live_of")


class Live:
    """Gives sessions, also to several threads at once; one session is for one thread.

    Plugins are loaded again only when the file names others than before. Steps of several threads
    wait for each other; whoever reads does not.
    """

    def __init__(
        self,
        path: Path,
        open_file: Callable[[Path, datetime], Collection],
        clock: Callable[[], datetime],
        needs_plugin: str = "",
    ) -> None:
        self.path = path
        self._open_file = open_file
        self._clock = clock
        self._needs_plugin = needs_plugin
        self._loading = threading.Lock()
        self._loaded: tuple[FileState, Collection] | None = None
        gc.enable()  # a command goes without, and a face would lose what a request leaves behind

    def now(self) -> datetime:
        """The moment that it is."""
        return self._clock()

    def session(self, sender: Sender | None = None) -> Session:
        """A session at the moment that it is, for one request; `sender` is who writes in it."""
        now = self._clock()
        return Session(
            self.path,
            now,
            lambda _: self._opened(now),
            needs_plugin=self._needs_plugin,
            sender=sender,
        )

    def _opened(self, now: datetime) -> Collection:
        """The collection, with nothing in it of any other request."""
        state = read_state(self.path) if self.path.exists() else None
        with self._loading:
            if self._loaded is not None and self._loaded[0] == state:
                return self._loaded[1].renewed()
            collection = self._open_file(self.path, now)
            if state is not None:
                # as it was before: what has changed since then, the next request sees
                self._loaded = state, collection.renewed()
        return collection


def live_of(context: Any) -> Live:
    """The live collection of a command that serves a face, from its Typer context."""
    return context.meta["warmside.live"]()  # type: ignore[no-any-return]
