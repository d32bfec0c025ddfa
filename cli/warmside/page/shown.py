"""An answer as a phone needs it: what only a command line could do with is left out."""

from __future__ import annotations

from collections.abc import Iterable

from msgspec.structs import replace

from warmside.core.answers.parts import Answer, Part, Tone, Words


def on_a_phone(answer: Answer) -> Answer:
    """The answer without its hints, which are commands to type."""
    sections = tuple(replace(s, parts=_without_hints(s.parts)) for s in answer.sections)
    return replace(answer, parts=_without_hints(answer.parts), sections=sections)


def _without_hints(parts: Iterable[Part]) -> tuple[Part, ...]:
    return tuple(p for p in parts if not (isinstance(p, Words) and p.tone is Tone.HINT))
