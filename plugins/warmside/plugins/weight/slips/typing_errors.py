"""What may have gone wrong with a number: a slipped point, grams for ounces, two within an hour.

All limits are common practice, no source.
"""

from __future__ import annotations

from collections.abc import Sequence
from math import exp, log

from warmside.plugins.weight.course.series import MassWords, middle
from warmside.plugins.weight.slips.suspicion import Suspect, Suspicion

_GRAMS_PER_OUNCE = 28.349523125
_GRAMS_PER_POUND = 453.59237
_SLIPS = (
    (10.0, "the point slipped one place"),
    (100.0, "the point slipped two places"),
    (1000.0, "kilograms and grams were mixed up"),
    (_GRAMS_PER_OUNCE, "grams and ounces were mixed up"),
    (_GRAMS_PER_POUND, "grams and pounds were mixed up"),
)
_SIGNED = [(sign * log(f), why) for f, why in _SLIPS for sign in (1, -1)]
_MATCH = log(1.3)  # how near to the exact factor a slip must come
_JUMP = log(1.8)  # no meal, clutch or litter changes a mass so much between two weighings
_PAIR_RATIO = 1.5
GROWTH = log(12) / 365
"""A fast hatchling's first year, in log mass a day."""
LOOK = log(1.5)
"""Smaller steps between neighbours, in log mass, are not looked into."""
PAIR_DAYS = 60 / 1440
"""Two weighings within an hour are of one body."""


def far_from(
    mass: float, around: Sequence[float], gaps: tuple[float, float], events: tuple[int, ...]
) -> Suspicion | None:
    """A mass beyond any change between weighings, where the log masses around it agree.

    `gaps` are the days within which it may have grown to that mass, and those since it within which
    it may have grown to the masses around it: a hatchling's first weighing is the least.
    """
    expected = exp(middle(around))
    ratio = log(mass / expected)
    most = _JUMP + GROWTH * gaps[0 if ratio > 0 else 1]
    if max(around) - min(around) > LOOK or abs(ratio) <= most:
        return None
    words = (
        f"{{}} is {mass / expected:.2g} times the {{}} of the weighings near it; "
        "check the number and the scale"
    )
    return Suspicion(Suspect.FAR, MassWords(words, (mass, expected)), events)


def slip_of(mass: float, expected: float, gap: float, events: tuple[int, ...]) -> Suspicion | None:
    """A mass that is off by a factor at which points, kilograms and ounces slip."""
    ratio = log(mass / expected)
    if abs(ratio) <= _JUMP + GROWTH * gap:
        return None
    exact, why = min(_SIGNED, key=lambda one: abs(one[0] - ratio))
    if abs(exact - ratio) > _MATCH:
        return None
    meant = mass / exp(exact)
    words = f"{{}} is far from the {{}} of the weighings near it; perhaps {why} and {{}} was meant"
    return Suspicion(Suspect.SLIP, MassWords(words, (mass, expected, meant)), events, meant)


def pair_of(first: float, second: float, gap: float, events: tuple[int, ...]) -> Suspicion | None:
    """Two weighings within PAIR_DAYS that differ by half; None where they do not."""
    if max(first, second) < _PAIR_RATIO * min(first, second):
        return None
    when = f"within {max(round(gap * 1440), 1)} min" if gap else "on one day, both without a time"
    words = f"{{}} and {{}} {when}; one of the two is wrong"
    return Suspicion(Suspect.CLOSE_PAIR, MassWords(words, (first, second)), events)
