"""Stretches of readings that are beyond a limit for long enough."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import pairwise
from statistics import median

from msgspec import Struct
from msgspec.structs import replace

STEP_S = 1800
"""Readings further apart than this do not join into one stretch."""

Readings = Sequence[tuple[int, float]]
"""Seconds since 1970 and degrees C, in order of time."""


class Alarm(Struct, frozen=True):
    """What is wrong: `what` is hot, cold, over or failed; the worst value, since when, until when.

    `lasts` says that no later reading of the zone was well again.
    """

    what: str
    zone: str
    value: float
    limit: float
    since: int
    until: int
    lasts: bool = False


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


def last_beyond(
    what: str, zone: str, readings: Readings, limit: float, *, above: bool, least_s: int
) -> Iterator[Alarm]:
    """The last stretch of a zone beyond a limit, if there is any."""
    found = list(stretches(readings, limit, above=above, least_s=least_s))
    if found:
        last = found[-1]
        one = Alarm(what, zone, last.value, limit, last.since, last.until)
        yield replace(one, lasts=lasts(readings, one, above=above))


def lasts(readings: Readings, alarm: Alarm, *, above: bool) -> bool:
    """Whether no later reading is back within the limit."""
    later = [v for at, v in readings if at > alarm.until]
    return all(v > alarm.limit if above else v < alarm.limit for v in later)
