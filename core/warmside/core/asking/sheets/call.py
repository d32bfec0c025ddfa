"""Whom to call, at the head of a sheet: as typed, as plugins know it, and lines for the rest."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from warmside.core.answers.forms import lines_to_write
from warmside.core.answers.parts import Part, Words

WANTED = (("keeper:", "keeper:"), ("vet:", "vet who treats reptiles:"))
"""How a known number begins, and the heading of the line where none is known."""


def whom_to_call(typed: Sequence[str], known: Sequence[Part], near: str) -> Iterator[Part]:
    """The numbers, then lines to write on for those that are missing, and for who is near.

    What the keeper typed for this sheet is taken as all that is wanted of keeper and vet.
    """
    yield from (*map(Words, typed), *known)
    said = [part.text for part in known if isinstance(part, Words)]
    missing = (heading for begins, heading in WANTED if not _any_begins(said, begins))
    yield lines_to_write("to_call", *(() if typed else missing), near)


def _any_begins(said: Sequence[str], word: str) -> bool:
    return any(text.startswith(word) for text in said)
