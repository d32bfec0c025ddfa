"""A warm side whose heat has failed, or is without control."""

from __future__ import annotations

import math
from bisect import bisect
from collections.abc import Iterator, Mapping

from msgspec.structs import replace

from warmside.plugins.habitat.gradient.limits import Limits
from warmside.plugins.habitat.gradient.stretches import (
    STEP_S,
    Alarm,
    Readings,
    last_beyond,
    lasts,
)

WARMING_S = 3600
"""So long after the lights went on a warm side may still be cold."""
FAILED_C, FAILED_FOR_S = 3.0, 4 * 3600
"""So far under its least for so long while lit a warm side has no heat (common practice): long
enough that a timer which is not set as the keeper's settings say is no failure."""
UNWARMED_C, SPREAD_C = 1.0, 1.0
"""So far under its least, and no more than so much above the cool side, is no heat either, in a
room that is warm itself (common practice)."""
OVER_C, OVER_FOR_S = 8.0, 3600
"""So far over its most for so long is a source without control (common practice): a lamp above a
probe, or a summer's day, is less."""


def over(zones: Mapping[str, Readings], limits: Limits) -> Iterator[Alarm]:
    """A warm side far hotter than it should be, by day or night: its thermostat holds nothing."""
    for zone, readings in zones.items():
        if (most := limits.most(zone)) is not None:
            beyond = most + OVER_C
            yield from last_beyond("over", zone, readings, beyond, above=True, least_s=OVER_FOR_S)


def failed(
    zones: Mapping[str, Readings], limits: Limits, lit: tuple[int, int] | None
) -> Iterator[Alarm]:
    """A warm side that is cold, or no warmer than the cool side, while the lights are on."""
    for zone in zones if lit else ():
        assert lit is not None
        if (least := limits.least(zone)) is not None:
            late = [r for r in zones[zone] if lit[0] + WARMING_S <= r[0] < lit[1]]
            below, slightly = least - FAILED_C, least - UNWARMED_C
            for those, limit in ((late, below), (_unwarmed(zones, limits, late), slightly)):
                found = [
                    *last_beyond("failed", zone, those, limit, above=False, least_s=FAILED_FOR_S)
                ]
                if found:
                    yield replace(found[0], lasts=lasts(zones[zone], found[0], above=False))
                    break


def _unwarmed(zones: Mapping[str, Readings], limits: Limits, warm: Readings) -> Readings:
    """The readings of a warm zone that are no warmer than those of the cool side at that time."""
    cool = [r for z in zones if limits.wanted.side(z) == "cool" for r in zones[z]]
    at = sorted(cool)
    found = []
    for moment, value in warm:
        place = bisect(at, (moment - STEP_S // 2, -math.inf))
        near = [v for t, v in at[place : place + 3] if abs(t - moment) <= STEP_S // 2]
        if near and value - max(near) < SPREAD_C:
            found.append((moment, value))
    return found
