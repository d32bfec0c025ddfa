"""An answer as a phone needs it: what only a command line or paper could do with is left out."""

from __future__ import annotations

from collections.abc import Iterable

from msgspec.structs import replace

from warmside.core.answers.forms import is_by_hand
from warmside.core.answers.parts import Answer, Fact, Part, Table, Tone, Words
from warmside.page.pieces.narrow import narrow
from warmside.page.pieces.page_words import in_page_words

PHONE = 280.0
"""Points for which drawings are set, so that their letters can be read on a phone."""


def on_a_phone(answer: Answer) -> Answer:
    """The answer without its hints, which are commands to type, and lines to write on by hand."""
    sections = [replace(s, parts=_for_a_phone(s.parts)) for s in answer.sections]
    shown = tuple(s for s in sections if s.parts)
    return replace(answer, parts=_for_a_phone(answer.parts), sections=shown)


def newest_first(answer: Answer) -> Answer:
    """The answer with the rows of its tables the other way round: a phone shows their first."""
    turned = tuple(
        replace(p, rows=p.rows[::-1]) if isinstance(p, Table) and not p.before else p
        for p in answer.parts
    )
    return replace(answer, parts=turned)


def _for_a_phone(parts: Iterable[Part]) -> tuple[Part, ...]:
    return tuple(_worded(p) for p in parts if not (_is_hint(p) or is_by_hand(p)))


def _worded(part: Part) -> Part:
    """With fields of the page in the place of options, and tables that fit."""
    match part:
        case Words(pre=False):
            return replace(part, text=in_page_words(part.text))
        case Fact() if part.missing:
            return replace(part, missing=in_page_words(part.missing))
        case Table():
            return narrow(part)
        case _:
            return part


def _is_hint(part: Part) -> bool:
    return isinstance(part, Words) and part.tone is Tone.HINT
