"""Invented courses of body mass, gut empty, one value a day; all numbers are assumptions.

The course is smooth growth or a level, times a slow wander (standard deviation WANDER_SD, time
constant WANDER_DAYS), and what seasons, eggs and illness do to it, as ramps in log mass.
"""

from __future__ import annotations

import math
import random
from collections.abc import Sequence
from dataclasses import dataclass

WANDER_SD, WANDER_DAYS = 0.01, 25.0
CLOCK_SD, CLOCK_DAYS = 0.25, 40.0


@dataclass(frozen=True, slots=True)
class Ramp:
    """Mass changes by `factor` from one day to another, evenly in log mass, and stays changed."""

    start: float
    end: float
    factor: float


def growing(
    rng: random.Random, days: int, adult_g: float, hatched_g: float, rate: float, age: float
) -> list[float]:
    """Gompertz growth from an age in days on, on a clock that runs fast and slow by turns."""
    depth = math.log(adult_g / hatched_g)
    pace = _wander(rng, days, CLOCK_SD, CLOCK_DAYS)
    found, clock = [], age
    for step in pace:
        found.append(adult_g * math.exp(-depth * math.exp(-rate * clock)))
        clock += max(1 + step, 0.1)
    return _wandering(rng, found)


def steady(rng: random.Random, days: int, level_g: float) -> list[float]:
    """A grown animal about one level."""
    return _wandering(rng, [level_g] * days)


def ramped(body: Sequence[float], first: int, ramps: Sequence[Ramp]) -> list[float]:
    """The course with its ramps; `first` is the day of its first value."""
    found = list(body)
    for ramp in ramps:
        log_factor = math.log(ramp.factor)
        for i in range(max(int(ramp.start) - first, 0), len(found)):
            part = min((i + first - ramp.start) / max(ramp.end - ramp.start, 1.0), 1.0)
            found[i] *= math.exp(log_factor * max(part, 0.0))
    return found


def stopped(body: Sequence[float], first: int, onset: int) -> list[float]:
    """The course until a day, then level."""
    place = onset - first
    return [*body[:place], *([body[place]] * (len(body) - place))]


def _wandering(rng: random.Random, body: Sequence[float]) -> list[float]:
    wander = _wander(rng, len(body), WANDER_SD, WANDER_DAYS)
    return [mass * math.exp(w) for mass, w in zip(body, wander, strict=True)]


def _wander(rng: random.Random, days: int, sd: float, constant: float) -> list[float]:
    """A stationary wander about 0 (Ornstein and Uhlenbeck), a value a day."""
    keep = math.exp(-1 / constant)
    kick = sd * math.sqrt(1 - keep**2)
    found = [rng.gauss(0, sd)]
    while len(found) < days:
        found.append(keep * found[-1] + rng.gauss(0, kick))
    return found
