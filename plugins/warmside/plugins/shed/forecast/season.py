"""A time of year without sheds, as far as an animal's own record shows one."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date
from itertools import pairwise

from msgspec import Struct

from warmside.plugins.shed.cycles.cycle import History
from warmside.plugins.shed.forecast.intervals import Interval, last_shed, loosened, of_history

YEAR = 365
LEAST_DAYS = 50  # a shorter gap in the year is chance; common practice, no source
_SHARE = 0.3  # of an interval: so much of it in the season makes it long
LEAST_RECORD_DAYS = 500  # the season must have passed twice


class Season(Struct, frozen=True):
    """Days of the year (1 to 365) between which no shed fell, the first and the last of them."""

    first: int
    last: int

    def days_within(self, start: date, days: float) -> float:
        """How many of so many days from a day on fall into the season."""
        length = (self.last - self.first) % YEAR + 1
        found, begun = 0.0, _of_year(start)
        for turn in (-YEAR, 0, YEAR, 2 * YEAR):
            low, high = self.first + turn, self.first + turn + length
            found += max(min(begun + days, high) - max(begun, low), 0.0)
        return found


def intervals_of(history: History) -> tuple[Interval, ...]:
    """The intervals, those that may hide a missed shed loosened; a season's are none of these."""
    found, last = of_history(history), last_shed(history)
    season = season_without(found, last[1]) if last else None

    def by_season(one: Interval) -> bool:
        if season is None or one.started is None:
            return False
        return season.days_within(one.started, one.low_days) > _SHARE * one.low_days

    return loosened(found, by_season)


def season_without(intervals: Sequence[Interval], last: date) -> Season | None:
    """The longest stretch of the year in which no shed ever fell; None where it is short."""
    sheds = sorted({i.started for i in intervals if i.started} | {last})
    if (sheds[-1] - sheds[0]).days < LEAST_RECORD_DAYS:
        return None
    days = sorted({_of_year(day) for day in sheds})
    gaps = [(b - a, a, b) for a, b in pairwise([*days, days[0] + YEAR])]
    length, before, after = max(gaps)
    if length - 1 < LEAST_DAYS:
        return None
    return Season(before % YEAR + 1, (after - 2) % YEAR + 1)


def _of_year(day: date) -> int:
    return min(day.timetuple().tm_yday, YEAR)
