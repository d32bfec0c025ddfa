"""What readings of the last days want the keeper to do at once, and what to look at."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from warmside.plugins.habitat.gradient.limits import Limits
from warmside.plugins.habitat.gradient.stretches import Alarm, Readings, last_beyond
from warmside.plugins.habitat.gradient.warm_side import OVER_C, UNWARMED_C, failed, over

HOT_FOR_S = 3600
"""The published limits speak of an hour above them (`SafeLimits`)."""
COLD_FOR_S = 6 * 3600
"""A night below the limit: six hours of it (our reading of `for a night`; common practice)."""


def may_alarm(
    zone: str,
    extremes: tuple[float, float],
    lit: tuple[float, float] | None,
    limits: Limits,
) -> bool:
    """Whether the least and most of a zone, in all and while lit, leave an alarm possible."""
    (low, high), warm = extremes, limits.wanted.side(zone) == "warm"
    if limits.hot is not None and not warm and high > limits.hot:
        return True
    if limits.cold is not None and warm and low < limits.cold:
        return True
    least, most = limits.least(zone), limits.most(zone)
    if most is not None and high > most + OVER_C:
        return True
    return least is not None and lit is not None and lit[0] < least - UNWARMED_C


def alarms(
    zones: Mapping[str, Readings], limits: Limits, lit: tuple[int, int] | None
) -> list[Alarm]:
    """The stretches of the readings that are beyond a limit, the last of each kind.

    `zones` are the temperatures by zone. `lit` is when the lights last went on and off: a warm
    side that is still cold an hour after they went on, or no warmer than the cool side, has no
    heat.
    """
    found = [*_hot(zones, limits), *_cold(zones, limits)]
    return found or [*over(zones, limits)] or [*failed(zones, limits, lit)]


def _hot(zones: Mapping[str, Readings], limits: Limits) -> Iterator[Alarm]:
    """The coolest zone that is measured; a warm side alone says nothing of where else it is."""
    side = limits.wanted.side
    cool = [z for z in zones if side(z) != "warm"]
    if limits.hot is None or not cool:
        return
    coolest = min(cool, key=lambda z: (side(z) != "cool", _mean(zones[z])))
    yield from last_beyond(
        "hot", coolest, zones[coolest], limits.hot, above=True, least_s=HOT_FOR_S
    )


def _cold(zones: Mapping[str, Readings], limits: Limits) -> Iterator[Alarm]:
    warm = [z for z in zones if limits.wanted.side(z) == "warm"]
    if limits.cold is None or not warm:
        return
    warmest = max(warm, key=lambda z: _mean(zones[z]))
    yield from last_beyond(
        "cold", warmest, zones[warmest], limits.cold, above=False, least_s=COLD_FOR_S
    )


def _mean(readings: Readings) -> float:
    return sum(v for _, v in readings) / len(readings) if readings else 0.0
