"""The next shed of an animal as dates, from its history; overdue is a note and no alarm."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date

from warmside.api import Estimate, Unit
from warmside.plugins.shed.cycles.cycle import History
from warmside.plugins.shed.forecast.drivers import drivers
from warmside.plugins.shed.forecast.forecast import (
    Forecast,
    forecasts,
    half_of_the_next,
    is_overdue,
    on_days,
)
from warmside.plugins.shed.forecast.intervals import Interval, last_shed, loosened, of_history
from warmside.plugins.shed.forecast.predictive import Prior

Days = tuple[date, date]


@dataclass(frozen=True, slots=True)
class NextShed:
    """The forecast counted from the last shed, and its ranges as first and last day.

    `last` is the first and last day on which the last shed can have been; the ranges hold for both.
    """

    forecast: Forecast
    last: Days
    dates_50: Days
    dates_90: Days
    intervals: tuple[Interval, ...]


def next_shed(
    history: History,
    on: date,
    prior: Prior | None,
    hatched: date | None = None,
    meals: Sequence[date] = (),
) -> NextShed | None:
    """The next shed of an animal whose history was read up to a day; None before the first shed.

    `meals` are the days of meals taken. Raises BadInput where, without a prior, there are too few
    sheds.
    """
    last = last_shed(history)
    if last is None:
        return None
    intervals = loosened(of_history(history))
    causes = drivers(intervals, last[1], hatched, meals)
    early, late = forecasts(intervals, [float((on - day).days) for day in last], prior, causes)
    return NextShed(
        late,
        last,
        (on_days(last[0], *early.range_50)[0], on_days(last[1], *late.range_50)[1]),
        (on_days(last[0], *early.range_90)[0], on_days(last[1], *late.range_90)[1]),
        intervals,
    )


def days_to_slough(
    history: History, on: date, prior: Prior, hatched: date | None = None
) -> Estimate | None:
    """The days from `on` to the next shed: `dates_50` of `next_shed` without meals, but quicker."""
    last = last_shed(history)
    if last is None:
        return None
    intervals = loosened(of_history(history))
    elapsed = float((on - last[0]).days), float((on - last[1]).days)
    causes = drivers(intervals, last[1], hatched, ())
    low, high, basis = half_of_the_next(intervals, elapsed, prior, causes)
    first, final = on_days(last[0], low, low)[0], on_days(last[1], high, high)[1]
    soonest, latest = (max(0, (day - on).days) for day in (first, final))
    return Estimate(None, soonest, latest, Unit.DAYS, basis)


def may_be_overdue(history: History, on: date, prior: Prior) -> bool:
    """Whether a forecast is worth its time: most animals are passed over by this, on their newest
    sheds alone.

    The 95 % point of the prediction lies above the shortest interval or the prior's middle. (With
    the newest n intervals alone this holds up to n / 0.27 intervals in all: no more than that
    share can lie above a mean by 1.645 standard deviations, by the one-sided Chebyshev
    inequality.)
    """
    last = last_shed(history)
    if last is None:
        return False
    elapsed = (on - last[1]).days
    if elapsed >= prior.middle_days:
        return True
    return any(i.low_days <= elapsed for i in of_history(history))


def overdue(
    history: History, on: date, prior: Prior, hatched: date | None = None
) -> NextShed | None:
    """The next shed if it is overdue, else None; meals are left out, to be quick."""
    last = last_shed(history)
    if last is None:
        return None
    intervals = loosened(of_history(history))
    causes = drivers(intervals, last[1], hatched, ())
    if not is_overdue(intervals, float((on - last[1]).days), prior, causes):
        return None
    return next_shed(history, on, prior, hatched)
