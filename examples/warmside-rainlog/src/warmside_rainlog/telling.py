"""Rain as words and tables."""

from __future__ import annotations

from collections.abc import Iterable

from warmside.api import Column, Kind, Table, Unit
from warmside_rainlog.rain import Shower, minutes_by_day


def days_words(days: int) -> str:
    """`every day` or `every 3 days`."""
    return "every day" if days == 1 else f"every {days} days"


def rain_table(showers: Iterable[Shower]) -> Table:
    """Minutes of rain on each day on which it rained, oldest first."""
    by_day = sorted((day, minutes) for (_, day), minutes in minutes_by_day(showers).items())
    columns = (Column("day", "day", Kind.DATE), Column("minutes", "minutes", Unit.COUNT))
    return Table("rain", columns, tuple(by_day), empty="it did not rain")
