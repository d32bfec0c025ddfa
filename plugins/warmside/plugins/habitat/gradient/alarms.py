"""What readings of the last hours want the keeper to do at once, and what to look at."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from itertools import pairwise
from statistics import median

from msgspec import Struct

from warmside.plugins.habitat.gradient.targets import Wanted, target
from warmside.plugins.habitat.logs.probes import Measure

HOT_FOR_S = 3600
"""The published limits speak of an hour above them (`SafeLimits`)."""
COLD_FOR_S = 6 * 3600
"""A night below the limit: six hours of it (our reading of `for a night`; common practice)."""
FAILED_C, FAILED_FOR_S = 3.0, 4 * 3600
"""So far under its least for so long while lit a warm side has no heat (common practice): long
enough that a timer which is not set as the keeper's settings say is no failure."""
STEP_S = 1800
"""Readings further apart than this do not join into one stretch."""

Readings = Sequence[tuple[int, float]]
"""Seconds since 1970 and degrees C, in order of time."""


class Limits(Struct, frozen=True):
    """Degrees C: the coolest place above `hot`, the warmest place below `cold`; None not known.

    `wanted` says which zone is on which side, and the least of each warm one by day, if `warmed`.
    """

    hot: float | None = None
    cold: float | None = None
    wanted: Wanted = Wanted()
    warmed: bool = True

    def least(self, zone: str) -> float | None:
        """The least by day of a zone on the warm side; None of others and where it is not known."""
        if not self.warmed or self.wanted.side(zone) != "warm":
            return None
        found = target(zone, Measure.AIR, self.wanted)
        return found.day[0] if found and found.day else None


class Alarm(Struct, frozen=True):
    """What is wrong: `what` is hot, cold or failed; the worst value, since when, until when."""

    what: str
    zone: str
    value: float
    limit: float
    since: int
    until: int


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
    least = limits.least(zone)
    return least is not None and lit is not None and lit[0] < least - FAILED_C


def alarms(
    zones: Mapping[str, Readings], limits: Limits, lit: tuple[int, int] | None
) -> list[Alarm]:
    """The stretches of the readings that are beyond a limit, the last of each kind.

    `zones` are the temperatures by zone. `lit` is when the lights last went on and off: a warm
    side that is still cold an hour after they went on has no heat.
    """
    found = [*_hot(zones, limits), *_cold(zones, limits)]
    return found or [*_failed(zones, limits, lit)]


def stretches(readings: Readings, beyond: float, *, above: bool, least_s: int) -> Iterator[Alarm]:
    """Stretches of readings beyond a value that last long enough."""
    steps = [b[0] - a[0] for a, b in pairwise(readings)]
    joins = max(STEP_S, 2.5 * median(steps)) if steps else STEP_S
    run: list[tuple[int, float]] = []
    for at, value in readings:
        is_beyond = value > beyond if above else value < beyond
        if run and (not is_beyond or at - run[-1][0] > joins):
            yield from _long(run, beyond, above, least_s)
            run = []
        if is_beyond:
            run.append((at, value))
    yield from _long(run, beyond, above, least_s)


def _long(run: Readings, beyond: float, above: bool, least_s: int) -> Iterator[Alarm]:
    if run and run[-1][0] - run[0][0] >= least_s:
        worst = (max if above else min)(value for _, value in run)
        yield Alarm("", "", worst, beyond, run[0][0], run[-1][0])


def _hot(zones: Mapping[str, Readings], limits: Limits) -> Iterator[Alarm]:
    """The coolest zone that is measured; a warm side alone says nothing of where else it is."""
    side = limits.wanted.side
    cool = [z for z in zones if side(z) != "warm"]
    if limits.hot is None or not cool:
        return
    coolest = min(cool, key=lambda z: (side(z) != "cool", _mean(zones[z])))
    yield from _last("hot", coolest, zones[coolest], limits.hot, above=True, least_s=HOT_FOR_S)


def _cold(zones: Mapping[str, Readings], limits: Limits) -> Iterator[Alarm]:
    warm = [z for z in zones if limits.wanted.side(z) == "warm"]
    if limits.cold is None or not warm:
        return
    warmest = max(warm, key=lambda z: _mean(zones[z]))
    yield from _last("cold", warmest, zones[warmest], limits.cold, above=False, least_s=COLD_FOR_S)


def _failed(
    zones: Mapping[str, Readings], limits: Limits, lit: tuple[int, int] | None
) -> Iterator[Alarm]:
    for zone in zones if lit else ():
        assert lit is not None
        if (least := limits.least(zone)) is not None:
            late = [r for r in zones[zone] if lit[0] + HOT_FOR_S <= r[0] < lit[1]]
            below = least - FAILED_C
            yield from _last("failed", zone, late, below, above=False, least_s=FAILED_FOR_S)


def _last(
    what: str, zone: str, readings: Readings, limit: float, *, above: bool, least_s: int
) -> Iterator[Alarm]:
    found = list(stretches(readings, limit, above=above, least_s=least_s))
    if found:
        last = found[-1]
        yield Alarm(what, zone, last.value, limit, last.since, last.until)


def _mean(readings: Readings) -> float:
    return sum(v for _, v in readings) / len(readings) if readings else 0.0
