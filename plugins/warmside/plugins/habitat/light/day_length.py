"""Hours of day over the year at a latitude, and the hours of a timer that follow them.

Sunrise and sunset by astral, the sun's upper edge on the horizon with usual refraction. Where the
sun does not set or rise, the day has 24 or 0 hours.
"""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date, timedelta

from msgspec import Struct

from warmside.api import BadInput

PLAIN_HOURS = 12.0
"""The plain default: lights 12 hours (common practice, no source)."""
WEEKS = 52


class Week(Struct, frozen=True):
    """One line of the table: from a day on, hours of light, and minutes after midnight."""

    begins: date
    hours: float
    on_minute: int
    off_minute: int


def day_hours(latitude: float, on: date) -> float:
    """Hours from sunrise to sunset; BadInput beyond what a latitude can be."""
    if not -90 <= latitude <= 90:
        raise BadInput(f"a latitude is between -90 (south) and 90 (north), not {latitude:g}")
    from astral import Observer, sun  # 30 ms, which no start should wait for

    place = Observer(latitude, 0.0, 0.0)
    try:
        rise, fall = sun.sunrise(place, on), sun.sunset(place, on)
    except ValueError:  # it never rises or never sets
        return 24.0 if sun.elevation(place, sun.noon(place, on)) > 0 else 0.0
    return ((fall - rise).total_seconds() / 3600) % 24


def weeks(
    latitude: float | None, year: int, middle_minute: int, least: float, most: float
) -> Iterator[Week]:
    """The table of a year by weeks, around a minute of the day, kept within `least` and `most`.

    Without a latitude all weeks have 12 hours.
    """
    first = date(year, 1, 1)
    for number in range(WEEKS):
        begins = first + timedelta(weeks=number)
        middle = begins + timedelta(days=3)
        plain = PLAIN_HOURS if latitude is None else day_hours(latitude, middle)
        hours = min(max(plain, least), most)
        half = round(hours * 30)
        yield Week(begins, hours, middle_minute - half, middle_minute + half)


def clock(minute: int) -> str:
    """A minute of the day as `07:30`."""
    return f"{minute // 60:02d}:{minute % 60:02d}"
