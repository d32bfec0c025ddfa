"""Due tasks as an iCalendar file (RFC 5545).

Ids are stable and every export carries a later stamp and sequence, so that importing again updates
the entries that are there instead of doubling them. Moments are written in UTC, each reckoned from
the wall clock of its own day, so that they hold across both clock changes.
"""

from __future__ import annotations

import hashlib
from collections.abc import Iterable
from datetime import UTC, date, datetime, time, timedelta
from typing import TYPE_CHECKING
from zoneinfo import ZoneInfo

from msgspec import Struct

from warmside.core.values.errors import BadInput

if TYPE_CHECKING:
    from icalendar import Alarm, Event

LENGTH = timedelta(minutes=15)  # shown length of a timed task
DAY_BEGINS = time(9)  # alarms of all-day tasks are reckoned back from here
LONGEST_ALARM = 7 * 24 * 60
_FIRST_STAMP = datetime(2020, 1, 1, tzinfo=UTC)
_LINE_BREAKS = "\r\n\v\f\x1c\x1d\x1e\x85\u2028\u2029"


class CalendarEntry(Struct, frozen=True):
    """One task: all day without `time`, over `days` days; else at that wall-clock time."""

    uid: str
    day: date
    time: time | None
    title: str
    description: str = ""
    days: int = 1


def stable_uid(*parts: str) -> str:
    """The same id for the same parts, such as collection, plugin, rule, subject; no name shows."""
    digest = hashlib.sha256("\x1f".join(parts).encode("utf-8", "surrogatepass"))
    return f"{digest.hexdigest()[:32]}@warmside"


def calendar_text(
    entries: Iterable[CalendarEntry],
    zone: str,
    stamp: datetime,
    alarm_minutes: int | None = None,
) -> str:
    """The calendar as text with CRLF line ends; write it without newline translation.

    `zone` is an IANA name, `stamp` the aware moment of the export. An alarm sounds so many minutes
    before a timed task, or before 9:00 on the day of an all-day one. Raises BadInput for an unknown
    zone, an alarm of more than a week, or two entries with one id.
    """
    from icalendar import Calendar

    rules = _zone(zone)
    _check_alarm(alarm_minutes)
    calendar = Calendar()
    calendar.add("prodid", "-//Warmside//Warmside//EN")
    calendar.add("version", "2.0")
    calendar.add("method", "PUBLISH")
    for entry in _in_order(entries):
        calendar.add_component(_event(entry, rules, stamp.astimezone(UTC), alarm_minutes))
    written: bytes = calendar.to_ical()
    return written.decode("utf-8")


def _event(entry: CalendarEntry, zone: ZoneInfo, stamp: datetime, alarm: int | None) -> Event:
    from icalendar import Event

    event = Event()
    event.add("uid", entry.uid)
    event.add("dtstamp", stamp)
    event.add("last-modified", stamp)
    event.add("sequence", max(0, int((stamp - _FIRST_STAMP).total_seconds())))
    event.add("summary", " ".join(_printable(entry.title).split()))
    if entry.description:
        event.add("description", _printable(entry.description))
    start, end = _span(entry, zone)
    event.add("dtstart", start)
    event.add("dtend", end)
    event.add("transp", "TRANSPARENT")
    if alarm is not None:
        event.add_component(_alarm(entry, zone, alarm))
    return event


def _span(entry: CalendarEntry, zone: ZoneInfo) -> tuple[date, date]:
    """Start and end, the end left out; both dates for an all-day task, else moments in UTC."""
    if entry.time is None:
        return entry.day, entry.day + timedelta(days=max(1, entry.days))
    start = _moment(entry.day, entry.time, zone)
    return start, start + LENGTH


def _alarm(entry: CalendarEntry, zone: ZoneInfo, minutes: int) -> Alarm:
    from icalendar import Alarm

    before = timedelta(minutes=minutes)
    alarm = Alarm()
    alarm.add("action", "DISPLAY")
    alarm.add("description", " ".join(_printable(entry.title).split()))
    if entry.time is None:
        # a moment: hours after midnight would be an hour off on the days of a clock change
        moment = _moment(entry.day, DAY_BEGINS, zone) - before
        alarm.add("trigger", moment, parameters={"value": "DATE-TIME"})  # else read as a duration
    else:
        alarm.add("trigger", -before)
    return alarm


def _moment(day: date, wall: time, zone: ZoneInfo) -> datetime:
    """A wall-clock time in UTC; one that a clock change skips is an hour later on the clock."""
    return datetime.combine(day, wall, zone).astimezone(UTC)


def _in_order(entries: Iterable[CalendarEntry]) -> list[CalendarEntry]:
    ordered = sorted(entries, key=lambda e: (e.day, e.time or time.min, e.uid))
    seen: set[str] = set()
    for entry in ordered:
        if entry.uid in seen:
            raise BadInput(
                f"two tasks have the calendar id {entry.uid!r} and would overwrite each other; "
                f"one is {entry.title!r} on {entry.day}"
            )
        seen.add(entry.uid)
    return ordered


def _zone(name: str) -> ZoneInfo:
    try:
        return ZoneInfo(name)
    except (LookupError, ValueError, OSError):
        raise BadInput(f"no time zone {name!r}; give a name such as Europe/Vienna") from None


def _check_alarm(minutes: int | None) -> None:
    if minutes is not None and not 0 <= minutes <= LONGEST_ALARM:
        raise BadInput(
            f"an alarm {minutes} minutes before cannot be; give 0 to {LONGEST_ALARM} minutes"
        )


def _printable(text: str) -> str:
    """The text without what RFC 5545 forbids: control characters, half surrogates."""
    kept = ("\n" if c in _LINE_BREAKS else c for c in text.replace("\r\n", "\n"))
    whole = "".join(c for c in kept if c in "\n\t" or (c >= " " and not "\x7f" <= c <= "\x9f"))
    return whole.encode("utf-8", "replace").decode("utf-8")
