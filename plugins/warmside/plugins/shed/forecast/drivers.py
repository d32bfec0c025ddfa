"""Age and meals as possible drivers of the intervals; whether they do is left to the data."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date, timedelta

from warmside.plugins.shed.forecast.intervals import Interval
from warmside.plugins.shed.forecast.trend import NEEDS, Driver

MEAL_DAYS = 60  # meals are counted before an interval: within it, longer ones would have more


def drivers(
    intervals: Sequence[Interval],
    last_shed: date,
    hatched: date | None,
    meals: Sequence[date],
) -> tuple[Driver, ...]:
    """The drivers that have a value for each interval of known length.

    `meals` are the days of meals taken, all there are; meals are left out as a driver where the
    record of them begins too late for the first interval.
    """
    starts = [i.started if i.exact else None for i in intervals]
    known = [s for s in starts if s is not None]
    if len(known) < NEEDS:
        return ()
    found = []
    if hatched is not None:
        found.append(Driver("age", *_ages(starts, last_shed, hatched)))
    if meals and min(meals) <= min(known) - timedelta(days=MEAL_DAYS):
        found.append(Driver("meals", *_meals(starts, last_shed, meals)))
    return tuple(found)


def _ages(
    starts: Sequence[date | None], last_shed: date, hatched: date
) -> tuple[tuple[float, ...], float]:
    ages = tuple(float((s - hatched).days) if s else 0.0 for s in starts)
    return ages, float((last_shed - hatched).days)


def _meals(
    starts: Sequence[date | None], last_shed: date, meals: Sequence[date]
) -> tuple[tuple[float, ...], float]:
    def before(day: date) -> float:
        return float(sum(0 < (day - m).days <= MEAL_DAYS for m in meals))

    return tuple(before(s) if s else 0.0 for s in starts), before(last_shed)
