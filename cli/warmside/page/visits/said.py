"""What a post had to say besides what it recorded, kept for the screen after it."""

from __future__ import annotations

import secrets
import threading
from collections.abc import Iterator
from typing import Any

from warmside.core.answers.parts import Answer, Tone, Words
from warmside.core.session.session import Session

MOST = 100
Lines = tuple[str, ...]


class Said:
    """The newest lines, each under a name that only the phone that posted can ask for.

    They are kept in memory alone: what was written is told by the history.
    """

    def __init__(self) -> None:
        self._lock = threading.Lock()
        self._kept: dict[tuple[str, str], Lines] = {}

    def keep(self, device: str, lines: Lines) -> str | None:
        """The name under which the lines are kept; None where there is nothing to say."""
        if not lines:
            return None
        name = secrets.token_hex(6)
        with self._lock:
            self._kept[device, name] = lines
            while len(self._kept) > MOST:
                del self._kept[next(iter(self._kept))]
        return name

    def of(self, device: str, name: str) -> Lines:
        """The lines of that name; nothing where they are not known any more."""
        with self._lock:
            return self._kept.get((device, name), ())


def told_by(session: Session, answer: Answer, *, keeper: bool) -> Lines:
    """What plugins added to a step, what was left out, and for a keeper what failed meanwhile."""
    said = [*_added(answer), *_unwritten(session, answer), *answer.warnings]
    return tuple(dict.fromkeys([*said, *(_troubles(session) if keeper else ())]))


def _added(answer: Answer) -> Iterator[str]:
    """The events of a step after the one that was sent: those of plugins."""
    events: Any = answer.extra.get("recorded", [])
    for event in events[1:]:
        yield f"Also recorded: {event['subject']}, {event['what']}"


def _unwritten(session: Session, answer: Answer) -> Iterator[str]:
    """Why nothing was written, where nothing was."""
    if session.written is None:
        for part in answer.parts:
            if isinstance(part, Words) and part.tone is not Tone.HINT:
                yield part.text


def _troubles(session: Session) -> Iterator[str]:
    opened = session.opened
    if opened is not None:
        yield from dict.fromkeys(opened.notices)
        yield from (f"{failure}; the rest went on" for failure in opened.host.failures)
