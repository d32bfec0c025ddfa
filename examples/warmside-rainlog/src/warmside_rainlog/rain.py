"""When it should rain again, and how much it rained: pure functions on plain values."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import date, timedelta


@dataclass(frozen=True, slots=True)
class Chamber:
    """An enclosure with rain: `minutes` of it every `days` days, since a day."""

    enclosure_id: int
    days: int
    minutes: int
    since: date


@dataclass(frozen=True, slots=True)
class Shower:
    """A run of a rain chamber: its day, minutes, and the number of its event."""

    enclosure_id: int
    day: date
    minutes: int
    event: int


def next_rain(chamber: Chamber, last: date | None) -> date:
    """The day on which it should rain again; at once where it never did."""
    return chamber.since if last is None else last + timedelta(days=chamber.days)


def minutes_by_day(showers: Iterable[Shower]) -> dict[tuple[int, date], int]:
    """Minutes of rain for each enclosure and day."""
    total: dict[tuple[int, date], int] = {}
    for shower in showers:
        key = (shower.enclosure_id, shower.day)
        total[key] = total.get(key, 0) + shower.minutes
    return total


def soaked(showers: Iterable[Shower], on: date, most_minutes: int) -> dict[int, int]:
    """Enclosures where it rained longer on that day than `most_minutes`, and how long."""
    today = minutes_by_day(s for s in showers if s.day == on)
    return {place: minutes for (place, _), minutes in today.items() if minutes > most_minutes}
