"""Spans of time and ages.

A span in days takes days and weeks only: a month has no fixed length. An age is not that sharp: its
year is the mean Gregorian one of 146 097 / 400 = 365.2425 days (ISO 8601:2004, whose calendar
repeats in 400 years; the count of its days from the leap rule), its month a twelfth of that.
"""

from __future__ import annotations

from decimal import Decimal

from warmside.core.values.measures.measure import Bare, Limit, Measure, rung, style
from warmside.core.values.scales import scale

_LARGEST = Decimal(100_000)  # 274 years; far less than what overflows a calendar
_MOST_DAYS = Limit(_LARGEST, "is too large", "check the number and its unit")

H = scale("h", "h, hr, hrs, hour, hours", chain="hour")
MIN = scale("min", "min, m, mins, minute, minutes", over="60", chain="hour")

HOURS = Measure(
    (H, MIN),
    style(H, rung(MIN, 60, 1), rung(MIN, None, 0, above=H)),
    ("12h", "90min", "13h 20min"),
    "hours",
)

WHOLE_MIN = scale("min", "min, m, mins, minute, minutes", chain="hour")
WHOLE_H = scale("h", "h, hr, hrs, hour, hours", "60", chain="hour")
SECONDS = scale("s", "s, sec, secs, second, seconds", over="60", chain="hour")

MINUTES = Measure(
    (WHOLE_MIN, WHOLE_H, SECONDS),
    style(WHOLE_MIN, rung(WHOLE_MIN, 60, 1), rung(WHOLE_MIN, None, 0, above=WHOLE_H)),
    ("20min", "1h 30min", "90s"),
    "minutes",
)

DAYS_ = scale("days", "d, day, days", chain="day", one="day")
WEEKS = scale("weeks", "w, wk, wks, week, weeks", "7", chain="day", one="week")
_NOT_FIXED = ("has no fixed number of days", "write days or weeks, such as 30d or 4w")

DAYS = Measure(
    (DAYS_, WEEKS),
    style(DAYS_),
    ("12", "12d", "2w"),
    "days",
    note="days or weeks",
    bare=Bare.ALWAYS,
    most=_MOST_DAYS,
    refused=dict.fromkeys(
        ["m", "mo", "mos", "month", "months", "y", "yr", "yrs", "year", "years"], _NOT_FIXED
    ),
)

MONTHS = scale("months", "months, month, mo, mos", "146097", over="4800", chain="day", one="month")
SHORT_MONTHS = scale("m", "m", "146097", over="4800", chain="day")
YEARS = scale("y", "y, yr, yrs, year, years", "146097", over="400", chain="day")

AGE = Measure(
    (DAYS_, WEEKS, MONTHS, SHORT_MONTHS, YEARS),
    style(
        DAYS_,
        rung(DAYS_, 28, 0),
        rung(WEEKS, 26, 0),
        rung(MONTHS, 12, 0),
        rung(SHORT_MONTHS, None, 0, above=YEARS),
    ),
    ("5d", "7w", "14 months", "2y 1m"),
    "age",
    bare=Bare.NEVER,
    apart=True,
    most=_MOST_DAYS,
)
