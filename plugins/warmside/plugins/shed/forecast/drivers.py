"""Age, meals and the time of year as drivers of the intervals; whether they are, the data show."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date, timedelta

from warmside.plugins.shed.forecast.intervals import Interval
from warmside.plugins.shed.forecast.season import Season, season_without
from warmside.plugins.shed.forecast.trend import NEEDS, Driver

SEASON = "the time of year"
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
    season = season_without(intervals, last_shed)
    if season is not None:
        found.append(Driver(SEASON, *_seasons(starts, last_shed, intervals, season)))
    return tuple(found)


def _seasons(
    starts: Sequence[date | None], last_shed: date, intervals: Sequence[Interval], season: Season
) -> tuple[tuple[float, ...], float]:
    """How much of a middle interval from each shed on falls into the season without sheds."""
    usual = sorted(i.low_days for i in intervals if i.exact)
    middle = usual[len(usual) // 2]
    return tuple(
        season.days_within(s, middle) / middle if s else 0.0 for s in starts
    ), season.days_within(last_shed, middle) / middle


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
