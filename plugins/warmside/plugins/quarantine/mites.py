"""When to look for snake mites again after one was seen."""

from __future__ import annotations

import functools
from dataclasses import dataclass
from datetime import date, timedelta

from warmside.api import Source
from warmside.plugins.quarantine.figures import shipped, source_of


@dataclass(frozen=True, slots=True)
class Rechecks:
    """Recheck days after a sighting, counted from it: first, last, and the step between (days)."""

    from_day: int
    to_day: int
    every_days: int


def egg_to_adult() -> tuple[Rechecks, Source]:
    """The shipped recheck days, over the time from egg to adult, and where that comes from."""
    return _cycle()


def recheck_days(sighted: date, rechecks: Rechecks) -> tuple[date, ...]:
    """The days on which to look again; the last day of the cycle is always one of them."""
    offsets = set(range(rechecks.from_day, rechecks.to_day, rechecks.every_days))
    return tuple(sighted + timedelta(days=n) for n in sorted(offsets | {rechecks.to_day}))


@functools.cache
def _cycle() -> tuple[Rechecks, Source]:
    data = shipped("mites.toml")
    grown = data["egg_to_adult"]
    days = Rechecks(grown["low_days"], grown["high_days"], data["recheck"]["every_days"])
    return days, source_of(grown, "egg to adult")
