"""Readings drawn together: by local days, and by quarter hours of one day.

Quarter hours, because the clock of every zone in use is a multiple of them away from UTC.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import UTC, date, datetime, time, timedelta
from zoneinfo import ZoneInfo

QUARTER_S = 900
PAUSE_H = 2.0

Quarter = tuple[int, int, int, int, int]
"""Number since 1970, lowest, highest, sum and number of readings, in thousandths of a degree."""


@dataclass(frozen=True, slots=True)
class Day:
    """The lowest, the highest and the mean reading of a day, as stored, and how many there are."""

    low: int
    high: int
    mean: float
    readings: int


def bounds(day: date, zone: ZoneInfo) -> tuple[int, int]:
    """The first instant of a local day and that of the next, in seconds since 1970."""
    first, next_one = (
        datetime.combine(d, time.min, zone).timestamp() for d in (day, day + timedelta(days=1))
    )
    return int(first), int(next_one)


def days_of(quarters: Iterable[Quarter], zone: ZoneInfo) -> dict[date, Day]:
    """The local days on which something was measured, oldest first."""
    found: dict[date, list[Quarter]] = {}
    for quarter in quarters:
        day = datetime.fromtimestamp(quarter[0] * QUARTER_S, zone).date()
        found.setdefault(day, []).append(quarter)
    return {day: whole(found[day]) for day in sorted(found)}


def whole(quarters: Iterable[Quarter]) -> Day:
    """Several quarter hours as one span; raises ValueError for none."""
    _, lows, highs, sums, numbers = zip(*quarters, strict=True)
    return Day(min(lows), max(highs), sum(sums) / sum(numbers), sum(numbers))


def by_clock(quarters: Iterable[Quarter], zone: ZoneInfo) -> list[tuple[float, float]]:
    """(hour of the local day, mean as stored): the middle of each quarter hour, in order.

    An hour that comes twice, when the clock is set back, is drawn together.
    """
    same: dict[float, list[Quarter]] = {}
    for quarter in quarters:
        local = datetime.fromtimestamp(quarter[0] * QUARTER_S, UTC).astimezone(zone)
        same.setdefault(local.hour + local.minute / 60 + 0.125, []).append(quarter)
    return [(hour, whole(same[hour]).mean) for hour in sorted(same)]


def in_a_row(quarters: Iterable[Quarter]) -> list[tuple[float, float | None]]:
    """(instant in seconds, mean as stored): the middle of each quarter hour, broken at pauses."""
    points = [(q[0] * QUARTER_S + QUARTER_S / 2, whole([q]).mean) for q in quarters]
    hours = with_pauses((at / 3600, mean) for at, mean in points)
    return [(hour * 3600, mean) for hour, mean in hours]


def with_pauses(points: Iterable[tuple[float, float]]) -> list[tuple[float, float | None]]:
    """The points of a curve, broken where nothing was measured for two hours."""
    curve: list[tuple[float, float | None]] = []
    for hour, value in points:
        if curve and hour - curve[-1][0] > PAUSE_H:
            curve.append((hour, None))
        curve.append((hour, value))
    return curve
