"""Why an animal may be lighter than usual: a fast, winter cooling, and the time after either."""

from __future__ import annotations

from bisect import bisect_left, bisect_right
from collections import Counter
from collections.abc import Iterator, Sequence
from enum import StrEnum
from math import inf

from msgspec import Struct

from warmside.plugins.weight.course.sign import Course

FAST_DAYS = 28.0
"""Without a meal for so long, with refusals, it fasts (common practice, no source)."""
LEAST_REFUSALS = 2
RECOVERY_DAYS = 120.0
"""So long after a fast or cooling it may still be lighter (common practice, no source)."""


class Why(StrEnum):
    """A known reason, in the words of a sentence."""

    FAST = "its fast"
    COOLING = "winter cooling"


class Reason(Struct, frozen=True):
    """A fast or cooling from its first day to its last, infinite while it lasts."""

    why: Why
    since: float
    until: float = inf

    def lasts(self, day: float) -> bool:
        """Whether it lasts on that day, or the animal is still getting over it."""
        return self.since <= day <= self.until


def known_reason(course: Course, day: float) -> Reason | None:
    """The reason that lasts on a day, else the last one that ended within RECOVERY_DAYS."""
    found = [r for r in _reasons(course, day) if r.since <= day <= r.until + RECOVERY_DAYS]
    return max(found, key=lambda r: (r.lasts(day), r.until, -r.since), default=None)


def fasts(
    meals: Sequence[float], refused: Sequence[float], day: float
) -> Iterator[tuple[float, float]]:
    """From the last meal before to the first meal after, of each fast up to a day.

    Meals are in order of day.
    """
    ends = [*meals[: bisect_right(meals, day)], inf]
    places = ((bisect_left(ends, r), r) for r in refused if r < day + 1)
    refusals = Counter(place for place, r in places if place and ends[place] > r)
    for place in sorted(refusals):  # far fewer than the meals
        last, after = ends[place - 1], ends[place]
        if min(after, day + 1) - last >= FAST_DAYS and refusals[place] >= LEAST_REFUSALS:
            yield last, after


def _reasons(course: Course, day: float) -> Iterator[Reason]:
    for begin, end in course.cooled:
        yield Reason(Why.COOLING, begin, end)
    for begin, end in fasts(course.meals, course.refused, day):
        yield Reason(Why.FAST, begin, end)
