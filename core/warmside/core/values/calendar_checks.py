"""Whether the calendar has a day, and a clock a time; what was typed is quoted when not."""

from __future__ import annotations

from datetime import date, time

from warmside.core.values.errors import BadInput
from warmside.core.values.hints import quoted

FIRST_YEAR, LAST_YEAR = 1800, 2999  # outside of these a year is a slip of the finger


def calendar_day(year: int, month: int, day: int, text: str) -> date:
    """The date; BadInput quoting `text` if the calendar has none or the year is a slip."""
    try:
        found = date(year, month, day)
    except ValueError:
        raise BadInput(f"{quoted(text)} is no day of the calendar; check day and month") from None
    if not FIRST_YEAR <= year <= LAST_YEAR:
        raise BadInput(
            f"{quoted(text)} is outside the years {FIRST_YEAR} to {LAST_YEAR}; check the year"
        )
    return found


def clock_time(hour: int, minute: int, second: int, text: str) -> time:
    """The time of day; BadInput quoting `text` if no clock shows it."""
    try:
        return time(hour, minute, second)
    except ValueError:
        raise BadInput(f"{quoted(text)} is no time of day; write 00:00 to 23:59") from None
