"""Questions to the keeper are values: a terminal prompts, a page shows a form, a script is told."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

from msgspec import Struct

from warmside.core.values.errors import WarmsideError


class Question(Struct, frozen=True):
    """What is asked; the answer goes to the request's field `key`.

    `yes_or_no` wants a yes; `exact` wants that very text typed; else any text will do. `option` is
    how a script answers. `check` raises what is wrong with an answer, so that a terminal asks that
    one again and keeps the others.
    """

    key: str
    words: str
    option: str
    default: str = ""
    yes_or_no: bool = False
    exact: str = ""
    check: Callable[[str], object] | None = None

    def answered(self, given: Any) -> Any:
        """The answer that was given; raises Unanswered where none was, or not the right one."""
        missing = not given if self.yes_or_no else given is None
        if missing or (self.exact and given != self.exact):
            raise Unanswered(self)
        return given


class Unanswered(WarmsideError):
    """A request that lacks an answer; nothing was changed. A front end that can ask, may ask."""

    def __init__(self, question: Question) -> None:
        self.question = question
        self.exit_code = 4 if question.yes_or_no or question.exact else 2
        super().__init__(_said(question))


def _said(question: Question) -> str:
    if question.exact:
        return f"{question.words}; to do it, add {question.option} {question.exact}"
    if question.yes_or_no:
        return f"{question.words} add {question.option} to do it"
    words = question.words[:1].lower() + question.words[1:].rstrip("?")
    return f"not said: {words}; add {question.option}"
