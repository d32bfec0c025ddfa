"""The air of a simulated enclosure hour by hour; all invented, in degrees C and %.

A room that follows the seasons, with a hot week in July; heat on a thermostat by day, by night
where it is kept so; a probe's noise; doors that are opened; what fails, fails from one day on.
"""

from __future__ import annotations

import math
import random
from collections.abc import Iterator
from dataclasses import dataclass
from datetime import date

STEP_MIN = 20
ROOM_MIDDLE, ROOM_SWING, ROOM_DAY = 22.0, 2.5, 0.8
"""The room over the year, and how far it is warmer by day."""
HOT_WEEK, HOT_BY = (195, 202), 2.3
"""Days of the year, and by how much the room is warmer in them."""
SWING_C, NOISE_C, NOISE_PERCENT = 0.5, 0.15, 2.0
LIGHTS = (8, 20)

Reading = tuple[int, float, float, float]
"""Minute of the day, air of the warm and of the cool side, humidity of the cool side."""


@dataclass(frozen=True, slots=True)
class Climate:
    """What a thermostat holds: the warm side by day and by night (None: no heat by night).

    `cool` is by how much the cool side is above the room by day; `damp` the humidity. With `heats`
    off the room alone warms it. `winter` is the room while the animal is cooled.
    """

    warm: float
    night: float | None
    cool: float
    damp: float
    heats: bool = True
    winter: float = 12.0


def room(on: date, minute: int) -> float:
    """The room at a minute of a day."""
    day = on.timetuple().tm_yday
    season = -math.cos(2 * math.pi * (day - 20) / 365.25)
    hot = HOT_BY if HOT_WEEK[0] <= day < HOT_WEEK[1] else 0.0
    return ROOM_MIDDLE + ROOM_SWING * season + hot + ROOM_DAY * _by_day(minute)


def day_of(
    rng: random.Random, climate: Climate, on: date, fault: str, cooled: bool
) -> Iterator[Reading]:
    """The readings of a day; `fault` is what has failed by then, or nothing."""
    opened = rng.randrange(9 * 60, 19 * 60) if rng.random() < 0.4 else -1
    for minute in range(0, 24 * 60, STEP_MIN):
        around = climate.winter if cooled else room(on, minute)
        lit = LIGHTS[0] * 60 <= minute < LIGHTS[1] * 60
        warm = around if cooled else _warm(climate, around, lit, fault, minute)
        heated = max(warm - around, 0.0)
        share = climate.cool / max(climate.warm - ROOM_MIDDLE, 1.0)
        cool = around + share * heated
        if 0 <= minute - opened < 40:
            warm, cool = (warm + 2 * around) / 3, (cool + 2 * around) / 3
        damp = climate.damp - (22.0 if fault == "dry" else 0.0) + 5 * math.sin(minute / 230)
        yield (
            minute,
            warm + rng.gauss(0, NOISE_C),
            cool + rng.gauss(0, NOISE_C),
            min(max(damp + rng.gauss(0, NOISE_PERCENT), 5.0), 99.0),
        )


def _warm(climate: Climate, around: float, lit: bool, fault: str, minute: int) -> float:
    """The warm side: held by the thermostat, stuck on, or as the room where heat has failed."""
    held = climate.warm if lit else climate.night
    if fault == "stuck":
        return around + 24.0
    if not climate.heats or fault == "failed" or held is None:
        return around
    ramp = min(1.0, (minute - LIGHTS[0] * 60) / 60) if lit and climate.night is None else 1.0
    swing = SWING_C * math.sin(2 * math.pi * minute / 25)
    return max(around, around + (held - around) * ramp + swing)


def _by_day(minute: int) -> float:
    return max(0.0, math.sin(math.pi * (minute / 60 - 7) / 14)) if minute >= 7 * 60 else 0.0
