"""How long an animal is, how fast it grows, and how long it gets, each as a range.

Mass goes with a power of length: 2.30 to 3.26 over the families of lizards that were fitted
(Feldman et al. 2016, coefficients as columns of Meiri 2018's data); snakes lie within. So a mass
that is `r` times another is a length that is `r` to the 1/3.26 up to 1/2.30 times the other.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from typing import NamedTuple

from msgspec import Struct

from warmside.api import Mark, Source

FAMILIES = Source("Feldman et al. 2016, as columns of Meiri 2018's data", Mark.SECONDARY)
POWERS = (2.30, 3.26)
"""The least and the most power of length with which mass goes."""
TAPE = 0.03
"""A live animal is measured to this share of its length at best (an assumption)."""
LEAST_DAYS, OLDEST_DAYS = 60, 400
"""Two lengths tell of growth when they are so many days apart, and no older."""


class Range(NamedTuple):
    """From low to high."""

    low: float
    high: float


class Known(Struct, frozen=True):
    """What is known of an animal on a day.

    `lengths` are days ago and mm, oldest first; `then_g` the mass on the day of the newest length,
    `now_g` today's, `before_g` that of `before_days` ago, `adult_g` what it may weigh when grown.
    `answered` is its length in mm today, where it is known otherwise than by these.
    """

    lengths: tuple[tuple[int, float], ...]
    then_g: float | None = None
    now_g: float | None = None
    before_g: float | None = None
    before_days: int = 0
    adult_g: Range | None = None
    answered: Range | None = None

    @property
    def is_dated(self) -> bool:
        """Whether its newest length is of another season and no mass tells how it grew since."""
        old = bool(self.lengths) and self.lengths[-1][0] > LEAST_DAYS
        return old and _times(self.then_g, self.now_g) is None


class Body(Struct, frozen=True):
    """Length in mm today, mm a day by which it grows, and its length when grown (None: unknown)."""

    length: Range
    per_day: Range | None
    grown: Range | None


def body(known: Known) -> Body | None:
    """Length, growth and grown length; None where its length is not known."""
    now = known.answered or length_by_tape(known)
    return Body(now, _per_day(known, now), _grown(known, now)) if now else None


def length_by_tape(known: Known) -> Range | None:
    """Its newest length, grown since as its mass says; None where it was never measured."""
    if not known.lengths:
        return None
    measured = known.lengths[-1][1]
    longer = _times(known.then_g, known.now_g) or Range(1.0, 1.0)
    return Range(measured * (1 - TAPE) * longer.low, measured * (1 + TAPE) * longer.high)


def _per_day(known: Known, now: Range) -> Range | None:
    """From two lengths that were measured apart, else from the masses of two days."""
    days, mm = known.lengths[-1] if known.lengths else (0, 0.0)
    earlier = [one for one in known.lengths if LEAST_DAYS <= one[0] - days <= OLDEST_DAYS]
    if earlier:
        first_days, first = earlier[0]
        apart = first_days - days
        error = TAPE * (mm + first) / 2
        return Range(max(0.0, mm - first - error) / apart, max(0.0, mm - first + error) / apart)
    grew = _times(known.before_g, known.now_g)
    if grew is None or known.before_days < LEAST_DAYS:
        return None
    low, high = (math.log(share) / known.before_days for share in grew)
    return Range(max(0.0, low) * now.low, max(0.0, high) * now.high)


def _grown(known: Known, now: Range) -> Range | None:
    """Its length when it weighs what the grown weigh; never less than today's."""
    if known.adult_g is None or known.now_g is None:
        return None
    least = _times(known.now_g, max(known.adult_g.low, known.now_g))
    most = _times(known.now_g, max(known.adult_g.high, known.now_g))
    assert least and most
    return Range(now.low * least.low, now.high * most.high)


def _times(before_g: float | None, after_g: float | None) -> Range | None:
    """How many times longer it is with one mass than with another."""
    if not before_g or not after_g:
        return None
    ends: Sequence[float] = sorted((after_g / before_g) ** (1 / power) for power in POWERS)
    return Range(ends[0], ends[-1])
