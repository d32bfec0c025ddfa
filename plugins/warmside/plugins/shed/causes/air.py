"""The air before a shed: what was read and misted in the enclosures where the animal then lived."""

from __future__ import annotations

from bisect import bisect_left, bisect_right
from collections.abc import Mapping, Sequence
from datetime import date, timedelta

from msgspec import Struct

from warmside.plugins.shed.causes.why import DAYS_BEFORE, middle_before, times_before

Stays = Sequence[tuple[date, int | None]]  # from which day in which enclosure, oldest first
Noted = tuple[date, float]  # a day and what was read on it


class Air(Struct, frozen=True):
    """By enclosure, oldest first: humidity readings in percent, and mistings (each a 1)."""

    humidity: Mapping[int, Sequence[Noted]]
    misted: Mapping[int, Sequence[Noted]]


def humidity_before(shed: date, stays: Stays, air: Air) -> float | None:
    """The middle humidity in percent in the days before a shed, or None without a reading."""
    return middle_before(shed, _noted(shed, stays, air.humidity))


def mistings_before(shed: date, stays: Stays, air: Air) -> int | None:
    """How often it was misted in the days before a shed; None where mistings were not noted.

    They are noted in an enclosure from the first one on record.
    """
    homes = _homes(shed, stays)
    begun = [air.misted[h][0][0] <= shed for h in homes if air.misted.get(h)]
    if not homes or len(begun) < len(homes) or not all(begun):
        return None
    return times_before(shed, [day for day, _ in _noted(shed, stays, air.misted)])


def _noted(shed: date, stays: Stays, notes: Mapping[int, Sequence[Noted]]) -> list[Noted]:
    """What was noted before a shed, on days on which the animal lived in that enclosure."""
    return [
        noted
        for home in _homes(shed, stays)
        for noted in _window(notes.get(home, ()), shed)
        if _home_on(noted[0], stays) == home
    ]


def _window(notes: Sequence[Noted], shed: date) -> Sequence[Noted]:
    first = shed - timedelta(days=DAYS_BEFORE)
    start = bisect_left(notes, first, key=lambda n: n[0])
    return notes[start : bisect_right(notes, shed, key=lambda n: n[0])]


def _homes(shed: date, stays: Stays) -> set[int]:
    first = shed - timedelta(days=DAYS_BEFORE)
    within = {home for day, home in stays if first <= day <= shed}
    return {h for h in (*within, _home_on(first, stays)) if h is not None}


def _home_on(day: date, stays: Stays) -> int | None:
    index = bisect_right(stays, day, key=lambda s: s[0])
    return stays[index - 1][1] if index else None
