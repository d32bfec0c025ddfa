"""Where an axis is marked, and what stands there: round numbers and calendar steps."""

from __future__ import annotations

import math
from collections.abc import Iterator
from datetime import date, timedelta
from itertools import islice, product, takewhile

Tick = tuple[float, str]

_APART = 2
_DAYS = (1, 2, 7, 14)
_MONTHS = (1, 2, 3, 6)
_YEARS = (1, 2, 5, 10, 20, 50, 100, 200, 500, 1000, 2000, 5000)


def number_ticks(low: float, high: float, most: int) -> tuple[Tick, ...]:
    """At most `most` multiples of 1, 2 or 5 times a power of ten within the range, labelled."""
    if not (math.isfinite(high - low) and high > low and most > 0):
        return ((low, f"{low:.6g}"),)
    power = math.floor(math.log10((high - low) / most))
    for exponent, factor in product((power, power + 1), (1, 2, 5)):
        step = factor * 10.0**exponent
        first, last = math.ceil(low / step), math.floor(high / step)
        if last - first < most:
            return tuple((n * step, _number(n * step, -exponent)) for n in range(first, last + 1))
    return ()


def date_ticks(low: float, high: float, room: float) -> tuple[Tick, ...]:
    """Dates within two proleptic ordinals, at the finest even calendar step whose labels fit.

    `room` is the length of the axis in letters. A label goes as far as the step: `2025-03-01`,
    `2025-03` or `2025`. Where no step has a date, the day of the low end stands alone.
    """
    first, last = _day(math.ceil(low)), _day(math.floor(high))
    for days, letters in _calendars(first):
        most = max(1, int(room // (letters + _APART)))
        within = takewhile(lambda day: day <= last, days)
        ticks = [(float(d.toordinal()), d.isoformat()[:letters]) for d in islice(within, most + 1)]
        if 0 < len(ticks) <= most:
            return tuple(ticks)
    return ((low, _day(math.floor(low)).isoformat()),)


def _day(ordinal: int) -> date:
    return date.fromordinal(min(max(1, ordinal), date.max.toordinal()))


def _number(value: float, digits: int) -> str:
    if abs(value) >= 1e7:
        return f"{value:.3g}"
    return f"{value + 0.0:.{max(0, digits)}f}" if digits <= 6 else f"{value:.3g}"


def _calendars(first: date) -> Iterator[tuple[Iterator[date], int]]:
    """Days at ever wider steps from the first on, and how many letters of the date they need."""
    for step in _DAYS:
        yield _every_days(first, step), 10
    for step in _MONTHS:
        yield _every_months(first, step), 7
    for step in _YEARS:
        yield _every_months(first, 12 * step), 4


def _every_days(first: date, step: int) -> Iterator[date]:
    day = first
    while True:
        yield day
        if day > date.max - timedelta(step):
            return
        day += timedelta(step)


def _every_months(first: date, step: int) -> Iterator[date]:
    """Firsts of months, of those whose count since year 0 is a multiple of the step."""
    months = first.year * 12 + first.month - 1 + (first.day > 1)
    months += -months % step
    while months < 12 * (date.max.year + 1):
        yield date(months // 12, months % 12 + 1, 1)
        months += step
