"""Times of a logger's file as instants, by the kind of its clock and the order of its dates.

A clock on the wall is set back in autumn: the hour that comes twice is told apart by the order of
the rows. A clock on standard time or UTC never jumps.
"""

from __future__ import annotations

import re
from datetime import UTC, datetime, timedelta
from enum import StrEnum
from zoneinfo import ZoneInfo

FIRST_YEAR = 1990  # before it no such logger was made: its clock was never set
_HEAD = re.compile(r"(\d{1,4})[./-](\d{1,2})[./-](\d{1,4})[ T]+(\d{1,2})")
_TAIL = re.compile(r"(\d{2})(?::(\d{2})(?:\.\d+)?)?\s*([AaPp]\.?[Mm]\.?)?")
_OFFSET = re.compile(r".*(Z|[+-]\d\d:?\d\d)$")

Half = str
"""Of a 12-hour clock: `a`, `p`; empty on a 24-hour clock."""


class Clock(StrEnum):
    """What a logger's clock shows."""

    WALL = "wall"
    STANDARD = "standard"
    UTC = "utc"


class Order(StrEnum):
    """In which order its dates are written."""

    YMD = "ymd"
    DMY = "dmy"
    MDY = "mdy"


class Times:
    """Reads the times of one file in the order of its rows.

    Hours are worked out once each, as a file of a year has a row a minute.
    """

    def __init__(self, order: Order, clock: Clock, zone: ZoneInfo, now: int) -> None:
        self._order, self._clock, self._zone, self._now = order, clock, zone, now
        self._last, self._before = 0, 0
        self._tails: dict[str, tuple[int, Half]] = {}
        self._hours: dict[tuple[str, Half], tuple[datetime, int | None]] = {}

    def seconds(self, text: str) -> int:
        """Seconds since 1970 of a row's time; raises ValueError saying what is wrong with it."""
        head, colon, tail = text.partition(":")
        part = self._tails.get(tail) or self._new_tail(text, colon, tail)
        if part is None:
            at = int(datetime.fromisoformat(text).timestamp())
        else:
            within, half = part
            hour = self._hours.get((head, half)) or self._new_hour(text, head, half)
            written, begin = hour
            at = begin + within if begin is not None else self._twice(written, within, text)
        if at > self._now:
            raise ValueError(f"{text} has not come yet: the logger's clock is wrong")
        self._before, self._last = self._last, at
        return at

    @property
    def stands(self) -> bool:
        """Whether the last two rows are of one instant, which no hour that comes twice is."""
        return self._last == self._before

    def _new_tail(self, text: str, colon: str, tail: str) -> tuple[int, Half] | None:
        """Seconds within the hour, and the half of the day; None for a time with an offset."""
        if _OFFSET.fullmatch(text) and len(text) > len("2026-03-05"):
            return None
        found = _TAIL.fullmatch(tail.strip())
        if not colon or not found:
            raise ValueError(f"time {text[:30]!r} cannot be read; {self._example}")
        minute, second, half = int(found[1]), int(found[2] or 0), (found[3] or "")[:1].lower()
        if minute > 59 or second > 59:
            raise ValueError(f"time {text[:30]!r}: there is no such minute or second")
        self._tails[tail] = minute * 60 + second, half
        return self._tails[tail]

    def _new_hour(self, text: str, head: str, half: Half) -> tuple[datetime, int | None]:
        """The hour as written, and its first instant; None where the clock is set within it."""
        written = self._written(text, head, half)
        if written.year < FIRST_YEAR:
            raise ValueError(f"{text} is before {FIRST_YEAR}: the logger's clock was not set")
        self._hours[head, half] = written, self._begin(written)
        return self._hours[head, half]

    def _written(self, text: str, head: str, half: Half) -> datetime:
        found = _HEAD.fullmatch(head.strip())
        if not found:
            raise ValueError(f"time {text[:30]!r} cannot be read; {self._example}")
        if (len(found[1]) == 4) is not (self._order is Order.YMD):
            raise ValueError(f"{text[:30]!r} is written otherwise; {self._example}")
        numbers = dict(zip(self._order, found.groups(), strict=False))
        year, hour = int(numbers["y"]), int(found[4])
        if half:
            if not 1 <= hour <= 12:
                raise ValueError(f"time {text[:30]!r}: there is no such hour on a 12-hour clock")
            hour = hour % 12 + (12 if half == "p" else 0)
        year += 2000 if year < 100 else 0
        try:
            return datetime(year, int(numbers["m"]), int(numbers["d"]), hour)
        except ValueError:
            raise ValueError(
                f"{text[:30]!r}: there is no such day or hour; {self._example}"
            ) from None

    def _begin(self, written: datetime) -> int | None:
        if self._clock is Clock.UTC:
            return int(written.replace(tzinfo=UTC).timestamp())
        if self._clock is Clock.STANDARD:
            return int(
                (written - standard_offset(self._zone, written)).replace(tzinfo=UTC).timestamp()
            )
        ends = (written, written + timedelta(minutes=59))
        both = [e.replace(tzinfo=self._zone, fold=f).utcoffset() for e in ends for f in (0, 1)]
        if len(set(both)) > 1:
            return None
        return int(written.replace(tzinfo=self._zone).timestamp())

    def _twice(self, hour: datetime, within: int, text: str) -> int:
        """An instant of an hour in which the clock is set forward or back."""
        written = hour + timedelta(seconds=within)
        first, second = (
            int(written.replace(tzinfo=self._zone, fold=f).timestamp()) for f in (0, 1)
        )
        back = datetime.fromtimestamp(first, UTC).astimezone(self._zone).replace(tzinfo=None)
        if back != written:
            raise ValueError(
                f"{text} never came: the clock was set forward over it; a logger that knows no "
                "summer time has --clock standard"
            )
        if self._before and self._last < self._before:  # the newest row stands first
            return second if second < self._last else first
        return first if first > self._last else second

    @property
    def _example(self) -> str:
        day = {"ymd": "2026-03-05", "dmy": "05.03.2026", "mdy": "03/05/2026"}[self._order]
        return f"this logger's times are written as {day} 08:30"


def standard_offset(zone: ZoneInfo, year: datetime) -> timedelta:
    """How far a zone is from UTC without its summer time, in the year of a time."""
    middles = [datetime(year.year, month, 1, 12, tzinfo=zone) for month in range(1, 13)]
    plain = [m.utcoffset() for m in middles if not m.dst()]
    found = plain[0] if plain else middles[0].utcoffset()
    return found or timedelta()
