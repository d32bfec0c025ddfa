"""What the page needs to know of the commands of plugins; the command line tells it."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Protocol

from msgspec import Struct

from warmside.core.answers.parts import Answer
from warmside.core.session.session import Session


class Blank(Struct, frozen=True):
    """A blank of a command's form; `flag` is ticked or not, `choices` are all that may be said.

    One that is `many` takes several values, a line each; `codes` are the tables whose codes fit.
    `called` is the option's name where it is another than `name`.
    """

    name: str
    help: str
    required: bool = False
    flag: bool = False
    choices: tuple[str, ...] = ()
    many: bool = False
    codes: tuple[str, ...] = ()
    called: str = ""


class Asked(Struct, frozen=True):
    """A command that answers: the words it is called by, what it says, and its blanks.

    One that writes a PDF names the argument for it in `target`.
    """

    words: str
    help: str
    blanks: tuple[Blank, ...]
    target: str = ""


class Commands(Protocol):
    """The commands of the core and of the plugins at work that a page can offer."""

    def all(self, session: Session) -> Sequence[Asked]:
        """All of them, in the order of their help."""

    def answer(self, command: Asked, given: dict[str, str], session: Session) -> Answer:
        """What a command answers in a session in which nothing can be written."""

    def paper(self, command: Asked, given: dict[str, str], session: Session) -> bytes:
        """The PDF that a command writes; it may note in the session that it was printed."""
