"""When to look for snake mites again after one was seen."""

from __future__ import annotations

import functools
from datetime import date, timedelta

from msgspec import Struct

from warmside.api import Source, sourced_rows


class Rechecks(Struct, frozen=True):
    """Recheck days after a sighting, counted from it: first, last, and the step between (days)."""

    from_day: int
    to_day: int
    every_days: int


@functools.cache
def cycle_of_mites() -> tuple[Rechecks, Source]:
    """The shipped recheck days, from the first adults to the longest life, and whose they are."""
    rows = {row["key"]: row for row in sourced_rows("warmside.plugins.quarantine", "mites")}
    grown, life, look = (rows[key] for key in ("egg-to-adult", "longest-life", "recheck"))
    return Rechecks(grown["low_days"], life["days"], look["every_days"]), grown.source


def recheck_days(sighted: date, rechecks: Rechecks) -> tuple[date, ...]:
    """The days on which to look again; the last day of the cycle is always one of them."""
    offsets = set(range(rechecks.from_day, rechecks.to_day, rechecks.every_days))
    return tuple(sighted + timedelta(days=n) for n in sorted(offsets | {rechecks.to_day}))
