"""The next shed of an animal as dates, from its history."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date

from msgspec import Struct

from warmside.plugins.shed.cycles.cycle import History
from warmside.plugins.shed.forecast.drivers import drivers
from warmside.plugins.shed.forecast.forecast import Forecast, forecasts, on_days
from warmside.plugins.shed.forecast.intervals import Interval, last_shed
from warmside.plugins.shed.forecast.predictive import Prior
from warmside.plugins.shed.forecast.season import intervals_of

Days = tuple[date, date]


class NextShed(Struct, frozen=True):
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
    intervals = intervals_of(history)
    causes = drivers(intervals, last[1], hatched, meals)
    early, late = forecasts(intervals, [float((on - day).days) for day in last], prior, causes)
    return NextShed(
        late,
        last,
        (on_days(last[0], *early.range_50)[0], on_days(last[1], *late.range_50)[1]),
        (on_days(last[0], *early.range_90)[0], on_days(last[1], *late.range_90)[1]),
        intervals,
    )
