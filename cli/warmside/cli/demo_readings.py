"""An invented week of a logger with three probes, ending now.

Believable, not real: warm by day, a drop at night, each turn of the lights followed slowly.
"""

from __future__ import annotations

import math
import random
from collections.abc import Iterator
from datetime import datetime, timedelta

SEED, DAYS, STEP = 21, 7, timedelta(minutes=30)
LIGHTS_ON, LIGHTS_OFF = 8, 20
RISES_H, FALLS_H = 1.0, 3.0
"""Hours in which a place comes near to what it will be, after the lights went on and off."""


def demo_readings(now: datetime) -> Iterator[tuple[str, float, float, int]]:
    """Local time, degrees C of the warm and of the cool side, and humidity in %."""
    noise = random.Random(SEED)
    end = now.replace(tzinfo=None, second=0, microsecond=0)
    at = end - timedelta(days=DAYS)
    while at <= end:
        lit, sway = _lit(at), noise.uniform(-0.4, 0.4)
        humid = round(41 - 4 * lit + noise.uniform(-1, 1))
        yield f"{at:%Y-%m-%d %H:%M}", _one(24.5 + 8.7 * lit + sway), _one(23 + 3 * lit), humid
        at += STEP


def _lit(at: datetime) -> float:
    """How far it has followed the lights, 0 by night to 1 by day."""
    hour = at.hour + at.minute / 60
    if LIGHTS_ON <= hour < LIGHTS_OFF:
        return 1 - math.exp(-(hour - LIGHTS_ON + 0.2) / RISES_H)
    return math.exp(-((hour - LIGHTS_OFF) % 24) / FALLS_H)


def _one(celsius: float) -> float:
    return round(celsius, 1)
