"""How a thermostat swings: from each crest of the readings to the next trough, and how often."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import pairwise
from statistics import median

from msgspec import Struct

NOISE = 0.6
"""Less than this, in the stored unit, is no turn (a probe's own noise; common practice)."""
LEAST_TURNS = 6
LONGEST_MIN = 240
"""What takes longer is day, night and the room, no thermostat (common practice, no source)."""


class Swing(Struct, frozen=True):
    """The middle height from crest to trough, in the stored unit, and the minutes of a cycle."""

    height: float
    minutes: float
    cycles: int


def swing(points: Sequence[tuple[int, float]], noise: float = NOISE) -> Swing | None:
    """The swing of readings in order of time (seconds, value); None with few turns or slow ones."""
    found = list(turns(points, noise))
    if len(found) < LEAST_TURNS:
        return None
    heights = [abs(b[1] - a[1]) for a, b in pairwise(found)]
    cycles = [b[0] - a[0] for a, b in zip(found, found[2:], strict=False)]
    minutes = median(cycles) / 60
    if minutes > LONGEST_MIN:
        return None
    return Swing(median(heights), minutes, len(cycles) // 2)


def turns(points: Sequence[tuple[int, float]], noise: float) -> Iterator[tuple[int, float]]:
    """Crests and troughs in turn: where the readings come back by more than the noise."""
    if not points:
        return
    low = high = points[0]
    rising: bool | None = None
    for point in points:
        high = point if point[1] > high[1] else high
        low = point if point[1] < low[1] else low
        if rising is not False and high[1] - point[1] > noise:
            yield high
            rising, low = False, point
            high = point
        elif rising is not True and point[1] - low[1] > noise:
            yield low
            rising, high = True, point
            low = point
