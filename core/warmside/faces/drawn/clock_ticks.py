"""Where an axis of instants or of hours is marked: at even times of the local clock."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import UTC, date, datetime, time, timedelta
from itertools import islice
from zoneinfo import ZoneInfo

from warmside.faces.drawn.ticks import Tick, date_ticks

_MINUTES = (1, 2, 5, 10, 15, 30, 60, 120, 180, 360, 720)
_CLOCK, _DATE, _APART = 5, 10, 2  # letters of 06:00 and 2025-03-01, and between two
_HOURS = (1, 2, 3, 4, 6, 12, 24)


def hour_ticks(room: float) -> tuple[Tick, ...]:
    """Hours of a day, 00:00 to 24:00, as close as their labels fit in `room` letters."""
    for step in _HOURS:
        count = 24 // step + 1
        if count * (_CLOCK + _APART) <= room or step == _HOURS[-1]:
            return tuple((float(hour), f"{hour:02}:00") for hour in range(0, 25, step))
    return ()


def instant_ticks(low: float, high: float, room: float, zone: ZoneInfo) -> tuple[Tick, ...]:
    """Even local times between two instants, midnights told by their date.

    Beyond half days the days themselves are marked, as on a calendar.
    """
    most = max(1, int(room // (_DATE + _APART)))
    for step in _MINUTES:
        if (high - low) / 60 / step > 2 * most + 2:
            continue
        ticks = list(islice(_clock(low, high, step, zone), most + 1))
        if 0 < len(ticks) <= most:
            return tuple(ticks)
    first, last = (_ordinal(instant, zone) for instant in (low, high))
    days = [(_midnight(int(day), zone), label) for day, label in date_ticks(first, last, room)]
    return tuple((at, label) for at, label in days if low <= at <= high)


def local_words(instant: float, zone: ZoneInfo) -> str:
    """The local day and time to the minute."""
    return datetime.fromtimestamp(instant, zone).strftime("%Y-%m-%d %H:%M")


def _clock(low: float, high: float, step: int, zone: ZoneInfo) -> Iterator[Tick]:
    """Ticks at every `step` minutes of the wall clock; an hour that a clock change skips has none.

    An hour that comes twice is marked the first time.
    """
    day = datetime.fromtimestamp(low, zone).date()
    while _midnight(day.toordinal(), zone) <= high:
        for minute in range(0, 1440, step):
            wall = datetime.combine(day, time(minute // 60, minute % 60), zone)
            at = wall.timestamp()
            real = datetime.fromtimestamp(at, zone).replace(tzinfo=None)
            if low <= at <= high and real == wall.replace(tzinfo=None):
                yield at, wall.strftime("%H:%M") if minute else day.isoformat()
        day += timedelta(days=1)


def _ordinal(instant: float, zone: ZoneInfo) -> float:
    local = datetime.fromtimestamp(instant, zone)
    return local.toordinal() + (local.hour + local.minute / 60) / 24


def _midnight(ordinal: int, zone: ZoneInfo) -> float:
    wall = datetime.combine(date.fromordinal(ordinal), time(), zone)
    return wall.astimezone(UTC).timestamp()
