"""An answer as a phone needs it: what only a command line or paper could do with is left out."""

from __future__ import annotations

from collections.abc import Iterable

from msgspec.structs import replace

from warmside.core.answers.forms import is_by_hand
from warmside.core.answers.parts import Answer, Part, Tone, Words

PHONE = 280.0
"""Points for which drawings are set, so that their letters can be read on a phone."""


def on_a_phone(answer: Answer) -> Answer:
    """The answer without its hints, which are commands to type, and lines to write on by hand."""
    sections = [replace(s, parts=_for_a_phone(s.parts)) for s in answer.sections]
    shown = tuple(s for s in sections if s.parts)
    return replace(answer, parts=_for_a_phone(answer.parts), sections=shown)


def _for_a_phone(parts: Iterable[Part]) -> tuple[Part, ...]:
    return tuple(p for p in parts if not (_is_hint(p) or is_by_hand(p)))


def _is_hint(part: Part) -> bool:
    return isinstance(part, Words) and part.tone is Tone.HINT
