"""Whom or what something is about: an animal, an enclosure, an animal in its enclosure, a pair."""

from __future__ import annotations

from msgspec import Struct


class About(Struct, frozen=True):
    """An animal, an enclosure, or an animal in its enclosure, by their ids; or nothing of both."""

    animal_id: int | None = None
    enclosure_id: int | None = None

    def __bool__(self) -> bool:
        return self.animal_id is not None or self.enclosure_id is not None


NOBODY = About()


class Pair(Struct, frozen=True):
    """Two of them, in this order: a dam and a sire, a newcomer and a resident."""

    first: About
    second: About


Whom = About | Pair
