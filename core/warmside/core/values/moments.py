"""Days and moments as a keeper types them and as they are stored.

A fact that is known to the day is a date, never midnight somewhere; an instant is UTC. The caller
gives the moment it is and the collection's zone. Whether a moment lies in the future is not judged
here.
"""

from __future__ import annotations

import re
from datetime import UTC, date, datetime, time, timedelta, timezone
from zoneinfo import ZoneInfo, ZoneInfoNotFoundError, available_timezones

from msgspec import Struct

from warmside.core.values.calendar_checks import calendar_day, clock_time
from warmside.core.values.doubled_hour import Both, Choose, instants
from warmside.core.values.errors import BadInput
from warmside.core.values.hints import near_miss, quoted
from warmside.core.values.numbered_days import numbered_day
from warmside.core.values.partial_dates import PartialDate, parse_partial_date
from warmside.core.values.stated_dates import parse_stated

__all__ = [
    "PartialDate",
    "When",
    "days_ago_words",
    "instant_text",
    "local_text",
    "parse_clock",
    "parse_day",
    "parse_instant",
    "parse_partial_date",
    "parse_stated",
    "parse_typed_date",
    "parse_when",
    "wall_when",
    "zone_named",
]

# patterns are compiled when first used: a start mostly needs none
_DAY = r"(?P<year>[0-9]{4})-(?P<month>[0-9]{1,2})-(?P<day>[0-9]{1,2})"
_CLOCK = r"(?P<hour>[0-9]{1,2}):(?P<minute>[0-9]{2})(?::(?P<second>[0-9]{2})(?:[.,][0-9]+)?)?"
_MONTH_YEAR = "([0-9]{1,2})[/.]([0-9]{4})"
_HOUR_MINUTE = "([0-9]{1,2}):([0-9]{2})"
_OFFSET = r"(?P<offset>Z|[+-][0-9]{2}(?::?[0-9]{2})?)"
_STAMP = f"(?i){_DAY}(?:T| ){_CLOCK} ?{_OFFSET}"
_DAY_AND_CLOCK = f"(?i)(?P<when>.*?)(?:(?<=[0-9])T|\\s+|^)(?P<clock>{_CLOCK})"
_AGO = "(?P<number>[0-9]{1,5}) ?(?P<unit>day|week)s? ago"
_AHEAD = "in (?P<number>[0-9]{1,5}) ?(?P<unit>day|week)s?"
_NAMED = {"today": 0, "yesterday": -1, "tomorrow": 1}

_WRITE_DAY = "write it as 2026-03-05, today, yesterday or 3 days ago"
_WRITE_WHEN = "write it as 2026-03-05, 2026-03-05 08:30, 08:30, now, yesterday 21:15 or 3 days ago"


class When(Struct, frozen=True):
    """A local calendar day, and the instant (UTC, whole seconds) where the time was given."""

    day: date
    at: datetime | None = None

    def local(self, zone: ZoneInfo) -> datetime | None:
        """The instant on the zone's clock."""
        return None if self.at is None else self.at.astimezone(zone)


def parse_day(text: str, now: datetime, zone: ZoneInfo, dates: str = "") -> date:
    """A day: an ISO date, `today`, `yesterday`, `tomorrow`, `3 days ago`, `in 2 weeks`.

    `dates` says which of day and month comes first in `4/1/2021`; see `numbered_day`.
    """
    day = _day_or_none(text, now.astimezone(zone).date(), dates)
    if day is None:
        raise _unread("day", text, _WRITE_DAY)
    return day


def parse_typed_date(text: str, now: datetime, zone: ZoneInfo, dates: str = "") -> PartialDate:
    """A date of which the day may be unknown: as in `parse_day`, or `2023-07`, `7/2023`, `2023`."""
    day = _day_or_none(text, now.astimezone(zone).date(), dates)
    return _partial(text) if day is None else PartialDate.of(day)


def parse_when(text: str, now: datetime, zone: ZoneInfo, dates: str = "") -> When:
    """A day as in `parse_day`, with or without a time; a time alone is today's; `now`.

    A time is on the zone's clock unless an ISO date-time has `Z` or an offset. A time that the
    clock jumped over is refused; of an hour that comes twice, the first is taken while the second
    is still to come, else it is asked which.
    """
    words = " ".join(text.split())
    if words.casefold() == "now":
        return _when(now, zone)
    if stamp := re.fullmatch(_STAMP, words):
        return _when(_instant(stamp, text), zone)
    today = now.astimezone(zone).date()
    day = _day_or_none(words, today, dates)
    if day is not None:
        return When(day)
    found = re.fullmatch(_DAY_AND_CLOCK, words)
    day = _day_or_none(found["when"] or "today", today, dates) if found else None
    if found is None or day is None:
        raise _unread("time", text, _WRITE_WHEN)
    return wall_when(day, _clock(found, text), zone, lambda both: _which(both, now, zone))


def _unread(what: str, text: str, write: str) -> BadInput:
    """Why no day can be read; a month or a year alone is told that the day is missing."""
    try:
        known = _partial(text)
    except BadInput:
        return BadInput(f"{what} {quoted(text)} cannot be read; {write}")
    span = "year" if known.month is None else "month"
    return BadInput(f"{quoted(text)} is a whole {span}; here the day is needed: {write}")


def _partial(text: str) -> PartialDate:
    month = re.fullmatch(_MONTH_YEAR, text.strip())
    return parse_partial_date(f"{month[2]}-{month[1]}" if month else text)


def _which(both: Both, now: datetime, zone: ZoneInfo) -> datetime:
    first, second = both
    if first <= now < second:
        return first
    shown = [at.astimezone(zone).isoformat(timespec="minutes") for at in both]
    raise BadInput(
        f"{_minutes(first.astimezone(zone))} comes twice in {zone.key}, where the clock is set "
        f"back; write {shown[0]} for the first or {shown[1]} for the second"
    )


def parse_clock(text: str) -> time:
    """A time of day to the minute: `08:30` or `8:30`."""
    found = re.fullmatch(_HOUR_MINUTE, text.strip())
    if found is None:
        raise BadInput(f"time of day {quoted(text)} cannot be read; write it as 08:30")
    return clock_time(int(found[1]), int(found[2]), 0, text)


def wall_when(
    day: date, clock: time | None, zone: ZoneInfo, choose: Choose = lambda both: both[0]
) -> When:
    """The moment when the zone's clock shows that time, or the day alone without a time.

    Raises BadInput where the clock jumped over the time; `choose` takes one of two where it was set
    back.
    """
    if clock is None:
        return When(day)
    found = instants(day, clock, zone)
    if not found:
        wall = datetime.combine(day, clock.replace(microsecond=0, fold=0))
        shown = wall.replace(tzinfo=zone).astimezone(UTC).astimezone(zone)
        raise BadInput(
            f"{_minutes(wall)} never came in {zone.key}: the clock jumped forward over it; "
            f"write {_minutes(shown)} or the day alone"
        )
    return When(day, choose((found[0], found[1])) if len(found) == 2 else found[0])


def instant_text(at: datetime) -> str:
    """An aware instant as stored, `2026-03-05T07:30:00Z`; parts of a second are cut off."""
    if at.tzinfo is None:
        raise ValueError("an instant needs a time zone")
    return at.astimezone(UTC).replace(microsecond=0, tzinfo=None).isoformat() + "Z"


def parse_instant(text: str) -> datetime:
    """The UTC instant of an ISO date-time with `Z` or an offset; parts of a second are cut off."""
    found = re.fullmatch(_STAMP, text.strip())
    if found is None:
        raise BadInput(f"instant {quoted(text)} cannot be read; write it as 2026-03-05T07:30:00Z")
    return _instant(found, text)


def local_text(day: date, at: datetime | None, zone: ZoneInfo) -> str:
    """`2026-03-05 08:30` on the zone's clock, or `2026-03-05` where no time is known."""
    return day.isoformat() if at is None else _minutes(at.astimezone(zone))


def days_ago_words(day: date, today: date) -> str:
    """`today`, `yesterday`, `12 days ago`, `tomorrow` or `in 3 days`."""
    ahead = (day - today).days
    for word, days in _NAMED.items():
        if ahead == days:
            return word
    return f"in {ahead} days" if ahead > 0 else f"{-ahead} days ago"


def zone_named(name: str) -> ZoneInfo:
    """The time zone of that name in the IANA database; near misses are suggested."""
    name = name.strip()
    if not name:
        raise BadInput("no time zone was given; write one such as Europe/Berlin")
    try:
        return ZoneInfo(name)
    except (ZoneInfoNotFoundError, ValueError, OSError):
        known = sorted(available_timezones())
        place = name.replace(" ", "_").casefold()
        whole = {k for k in known if place in (k.casefold(), _place(k))}
        hint = near_miss(min(whole) if whole else name, known)
        raise BadInput(
            f"there is no time zone {quoted(name)}{hint}; write one such as Europe/Berlin"
        ) from None


def _place(zone: str) -> str:
    return zone.rpartition("/")[2].casefold()


def _minutes(wall: datetime) -> str:
    return wall.replace(tzinfo=None).isoformat(sep=" ", timespec="minutes")


def _when(at: datetime, zone: ZoneInfo) -> When:
    return When(at.astimezone(zone).date(), at.astimezone(UTC).replace(microsecond=0))


def _day_or_none(text: str, today: date, dates: str) -> date | None:
    """The day that the words mean; None if they are not of that form."""
    words = " ".join(text.casefold().split())
    if words in _NAMED:
        return today + timedelta(days=_NAMED[words])
    if found := re.fullmatch(_DAY, words):
        year, month, day = found.group("year", "month", "day")
        return calendar_day(int(year), int(month), int(day), text)
    if (numbered := numbered_day(words, dates, today)) is not None:
        return numbered
    ago, ahead = re.fullmatch(_AGO, words), re.fullmatch(_AHEAD, words)
    found = ago or ahead
    if found is None:
        return None
    days = int(found["number"]) * (7 if found["unit"] == "week" else 1)
    try:
        there = today + timedelta(days=-days if ago else days)
    except OverflowError:
        raise BadInput(f"{quoted(text)} is too far away; check the number") from None
    return calendar_day(there.year, there.month, there.day, text)


def _clock(found: re.Match[str], text: str) -> time:
    return clock_time(int(found["hour"]), int(found["minute"]), int(found["second"] or 0), text)


def _instant(found: re.Match[str], text: str) -> datetime:
    """The UTC instant of a date-time with an offset."""
    day = calendar_day(int(found["year"]), int(found["month"]), int(found["day"]), text)
    wall = datetime.combine(day, _clock(found, text))
    return wall.replace(tzinfo=_offset(found["offset"], text)).astimezone(UTC)


def _offset(offset: str, text: str) -> timezone:
    if offset in "Zz":
        return UTC
    digits = offset[1:].replace(":", "").ljust(4, "0")
    hours, minutes = int(digits[:2]), int(digits[2:])
    if hours > 23 or minutes > 59:
        raise BadInput(f"{quoted(text)} has no possible offset; write one such as +01:00 or Z")
    ahead = timedelta(hours=hours, minutes=minutes)
    return timezone(-ahead if offset[0] == "-" else ahead)
