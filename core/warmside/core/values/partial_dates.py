"""Dates of which the day, or month and day, may be unknown: hatched 2023, or in July 2023."""

from __future__ import annotations

import re
from calendar import monthrange
from datetime import date
from functools import cache

from msgspec import Struct

from warmside.core.values.calendar_checks import calendar_day
from warmside.core.values.errors import BadInput
from warmside.core.values.hints import quoted

_PARTIAL = re.compile("([0-9]{4})(?:-([0-9]{1,2})(?:-([0-9]{1,2}))?)?")


class PartialDate(Struct, frozen=True):
    """A date of which the day, or month and day, may be unknown."""

    year: int
    month: int | None = None
    day: int | None = None

    def __post_init__(self) -> None:
        if self.day is not None and self.month is None:
            raise ValueError("a day needs its month")
        _ = self.earliest  # raises ValueError where the calendar has no such date

    @classmethod
    def of(cls, day: date) -> PartialDate:
        """The date that is fully known."""
        return cls(day.year, day.month, day.day)

    @property
    def earliest(self) -> date:
        """The first day that it can be."""
        return date(self.year, self.month or 1, self.day or 1)

    @property
    def latest(self) -> date:
        """The last day that it can be."""
        if self.day is not None:
            return self.earliest
        month = self.month or 12
        return date(self.year, month, monthrange(self.year, month)[1])

    @property
    def text(self) -> str:
        """As stored: `2023`, `2023-07` or `2023-07-14`."""
        known = [f"{n:02}" for n in (self.month, self.day) if n is not None]
        return "-".join([f"{self.year:04}", *known])

    def __str__(self) -> str:
        return self.text

    def age_days(self, on: date) -> tuple[int, int]:
        """The least and the greatest age in days on a day.

        The least is never below 0 unless the whole date lies after that day.
        """
        least, greatest = (on - self.latest).days, (on - self.earliest).days
        return (max(least, 0) if greatest >= 0 else least), greatest


@cache
def parse_partial_date(text: str) -> PartialDate:
    """`2023`, `2023-07` or `2023-07-14`; raises BadInput for anything else."""
    found = _PARTIAL.fullmatch(text.strip())
    if found is None:
        raise BadInput(
            f"date {quoted(text)} cannot be read; write it as 2023-07-14, 2023-07 or 2023"
        )
    year, *rest = (int(n) for n in found.groups() if n is not None)
    month, day = [*rest, None, None][:2]
    calendar_day(year, month or 1, day or 1, text)
    return PartialDate(year, month, day)
