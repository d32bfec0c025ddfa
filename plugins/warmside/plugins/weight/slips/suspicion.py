"""A doubt about a weighing, in words."""

from __future__ import annotations

from collections.abc import Sequence
from enum import StrEnum

from msgspec import Struct

from warmside.plugins.weight.course.series import MassWords


class Suspect(StrEnum):
    """What may have gone wrong at the keyboard or the scale."""

    SLIP = "slip"
    FAR = "far"
    WRONG_ANIMAL = "wrong animal"
    CLOSE_PAIR = "close pair"


class Suspicion(Struct, frozen=True):
    """A doubt about a weighing, in words; `events` are those in doubt (none before entry).

    `meant_g` is the mass that would fit; `animals` are codes whose own mass fits, nearest first.
    """

    kind: Suspect
    words: MassWords
    events: tuple[int, ...] = ()
    meant_g: float | None = None
    animals: tuple[str, ...] = ()


def slipped_events(suspicions: Sequence[Suspicion]) -> frozenset[int]:
    """Events suspected of a slip of factor ten and the like, which no check should rest on."""
    return frozenset(e for one in suspicions if one.kind is Suspect.SLIP for e in one.events)
