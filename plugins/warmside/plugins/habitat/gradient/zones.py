"""The readings of one probe over some days, drawn together; NumPy is imported late by the caller.

A reading stands for the time until the next one, at most for `GAP_STEPS` of the usual step: what is
longer is a gap in the log and counts for nothing. Day is while the lights are on, by the clock of
the keeper's zone; the two days on which the clock is set are an hour off in one half.
"""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING

from msgspec import Struct

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import NDArray

    Instants = NDArray[np.int64]
    Values = NDArray[np.float64]

GAP_STEPS = 3.0
LEAST_GAP_S = 1800
HOUR_S = 3600.0


class Target(Struct, frozen=True):
    """The span in which a zone should be, in the stored unit, by day and by night, and who says
    so."""

    day: tuple[float, float] | None = None
    night: tuple[float, float] | None = None
    by: str = ""


class Spread(Struct, frozen=True):
    """Least, middle and most of some readings, in the stored unit, and how many there are."""

    low: float
    middle: float
    high: float
    readings: int


class Outside(Struct, frozen=True):
    """Hours outside the target, and degree-hours, over it and under it."""

    hours_over: float = 0.0
    hours_under: float = 0.0
    over: float = 0.0
    under: float = 0.0


class Gaps(Struct, frozen=True):
    """Gaps in the log: how many, how long in all and the longest, in hours."""

    number: int
    hours: float
    longest: float


class ZoneSummary(Struct, frozen=True):
    """What a probe measured over some days; `covered` hours are those that readings stand for."""

    whole: Spread
    day: Spread | None
    night: Spread | None
    covered: float
    outside: Outside | None
    gaps: Gaps

    @property
    def night_drop(self) -> float | None:
        """How much lower the middle of the nights is than that of the days."""
        return self.day.middle - self.night.middle if self.day and self.night else None


def summary(
    at: Instants,
    values: Values,
    midnights: Sequence[int],
    lights: tuple[float, float],
    target: Target | None = None,
) -> ZoneSummary:
    """The summary of readings in order of time; raises ValueError for none.

    `at` in seconds since 1970, `values` in the stored unit; `midnights` are the first instants of
    the local days that the readings lie in, in order; `lights` hours of the clock, on and off.
    """
    import numpy as np

    if not len(at):
        raise ValueError("a summary needs readings")
    by_day = _by_day(at, midnights, lights)
    steps = np.diff(at)
    longest = max(GAP_STEPS * float(np.median(steps)), LEAST_GAP_S) if len(steps) else 0.0
    stands = np.append(np.where(steps <= longest, steps, 0), 0) / HOUR_S
    pauses = steps[steps > longest] / HOUR_S
    gaps = Gaps(len(pauses), float(pauses.sum()), float(pauses.max(initial=0.0)))
    outside = _outside(values, stands, by_day, target) if target else None
    parts = (values[by_day], values[~by_day])
    day, night = (_spread(p) if len(p) else None for p in parts)
    return ZoneSummary(_spread(values), day, night, float(stands.sum()), outside, gaps)


def _by_day(
    at: Instants, midnights: Sequence[int], lights: tuple[float, float]
) -> NDArray[np.bool_]:
    import numpy as np

    begins = np.asarray(midnights, dtype=np.int64)
    place = np.maximum(np.searchsorted(begins, at, side="right") - 1, 0)
    within = (at - begins[place]) / HOUR_S
    on, off = lights
    found: NDArray[np.bool_]
    found = (within >= on) & (within < off) if on <= off else (within >= on) | (within < off)
    return found


def _spread(values: Values) -> Spread:
    import numpy as np

    return Spread(
        float(values.min()), float(np.median(values)), float(values.max()), int(values.size)
    )


def _outside(values: Values, stands: Values, by_day: NDArray[np.bool_], target: Target) -> Outside:
    import numpy as np

    found = Outside()
    for span, when in ((target.day, by_day), (target.night, ~by_day)):
        if span is None:
            continue
        low, high = span
        over, under = np.maximum(values - high, 0.0) * when, np.maximum(low - values, 0.0) * when
        found = Outside(
            found.hours_over + float(stands[over > 0].sum()),
            found.hours_under + float(stands[under > 0].sum()),
            found.over + float((over * stands).sum()),
            found.under + float((under * stands).sum()),
        )
    return found
