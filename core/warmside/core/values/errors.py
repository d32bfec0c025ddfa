"""What can go wrong, each with the exit code that the command line gives it.

The text is written for the keeper: what is wrong, with the value; what to do. Lower case, one line.
"""

from __future__ import annotations

from collections.abc import Sequence

from msgspec import Struct


class WarmsideError(Exception):
    """Something failed for a reason that the keeper can read."""

    exit_code = 1


class BadInput(WarmsideError):
    """A value that cannot be used."""

    exit_code = 2


class NotFound(WarmsideError):
    """No such animal, enclosure, event, species or plugin."""

    exit_code = 3


class Refused(WarmsideError):
    """Refused, or not confirmed."""

    exit_code = 4


class UnknownWord(Struct, frozen=True):
    """A word that nobody knows in a field (`fed.item`), how many events have it, what is known."""

    field: str
    word: str
    times: int
    known: tuple[str, ...] = ()


class Doubtful(Refused):
    """Refused until the keeper confirms it; the front end says how that is done.

    `doubts` holds each doubt as a sentence, where the text names only some.
    """

    def __init__(self, text: str, doubts: Sequence[str] = ()) -> None:
        super().__init__(text)
        self.doubts = tuple(doubts) or (text,)


class SentBefore(Refused):
    """A step with this reference was written already, as step `step_id`; nothing was written."""

    def __init__(self, step_id: int) -> None:
        super().__init__(f"this was recorded already, as step {step_id}; nothing was written")
        self.step_id = step_id


class FileProblem(WarmsideError):
    """The collection file needs attention."""

    exit_code = 5


class Busy(WarmsideError):
    """Another program holds the file; trying again later helps."""

    exit_code = 75
