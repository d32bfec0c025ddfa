"""Calendar files read back by a second, independent parser (ics, which shares no code)."""

from __future__ import annotations

import re
import subprocess
import sys
from datetime import UTC, date, datetime, time, timedelta
from typing import Any
from zoneinfo import ZoneInfo

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from warmside.core.values.errors import BadInput
from warmside.faces.calendar_file import CalendarEntry, calendar_text, stable_uid

STAMP = datetime(2025, 3, 1, 12, tzinfo=UTC)
FEED = CalendarEntry("feed-1@warmside", date(2025, 3, 10), time(18), "feed Ember")
CLEAN = CalendarEntry("clean-1@warmside", date(2025, 3, 11), None, "clean rack 2")


def read_back(text: str) -> dict[str, Any]:
    """Events by uid, as the independent parser `ics` 0.7 understands them."""
    from ics import Calendar

    return {e.uid: e for e in Calendar(text).events}


def unfolded(text: str) -> list[str]:
    return re.sub(r"\r\n[ \t]", "", text).split("\r\n")


def test_a_timed_task_is_at_its_wall_clock_time() -> None:
    event = read_back(calendar_text([FEED], "Europe/Vienna", STAMP))[FEED.uid]
    assert event.name == "feed Ember"
    assert event.begin.datetime == datetime(2025, 3, 10, 17, tzinfo=UTC)
    assert event.duration == timedelta(minutes=15)
    assert not event.all_day


def test_an_all_day_task_has_dates_and_no_zone() -> None:
    text = calendar_text([CLEAN], "Pacific/Auckland", STAMP)
    event = read_back(text)[CLEAN.uid]
    assert event.all_day
    assert event.begin.date() == date(2025, 3, 11)
    assert "DTSTART;VALUE=DATE:20250311" in unfolded(text)
    assert "DTEND;VALUE=DATE:20250312" in unfolded(text)


def test_a_task_over_several_days_ends_after_the_last() -> None:
    entry = CalendarEntry("q@warmside", date(2025, 3, 30), None, "watch", days=3)
    assert "DTEND;VALUE=DATE:20250402" in unfolded(calendar_text([entry], "UTC", STAMP))


ZONES = ["Europe/Vienna", "America/New_York", "Australia/Sydney", "Pacific/Auckland", "Asia/Tokyo"]
CHANGES = {  # both clock changes of 2025, as announced by the zones' authorities (IANA tzdata)
    "Europe/Vienna": (date(2025, 3, 30), date(2025, 10, 26)),
    "America/New_York": (date(2025, 3, 9), date(2025, 11, 2)),
    "Australia/Sydney": (date(2025, 4, 6), date(2025, 10, 5)),
    "Pacific/Auckland": (date(2025, 4, 6), date(2025, 9, 28)),
    "Asia/Tokyo": (date(2025, 3, 30), date(2025, 10, 26)),
}


@pytest.mark.parametrize("zone", ZONES)
def test_the_wall_clock_holds_on_the_days_around_both_clock_changes(zone: str) -> None:
    """Source: IANA time zone data through zoneinfo. Mark: published."""
    entries = [
        CalendarEntry(f"{day}-{hour}@warmside", day, time(hour, 30), "feed")
        for change in CHANGES[zone]
        for day in (change - timedelta(days=1), change, change + timedelta(days=1))
        for hour in (0, 8, 18, 23)
    ]
    events = read_back(calendar_text(entries, zone, STAMP))
    for entry in entries:
        local = events[entry.uid].begin.datetime.astimezone(ZoneInfo(zone))
        assert (local.date(), local.time()) == (entry.day, entry.time)


def test_eighteen_o_clock_moves_in_utc_with_the_clock_change() -> None:
    """Vienna is UTC+1 before 30 March 2025 and UTC+2 from then on. Mark: published (tzdata)."""
    days = (date(2025, 3, 29), date(2025, 3, 30))
    entries = [CalendarEntry(str(d), d, time(18), "feed") for d in days]
    events = read_back(calendar_text(entries, "Europe/Vienna", STAMP))
    assert [events[str(d)].begin.datetime.hour for d in days] == [17, 16]


def test_a_time_that_the_clock_change_skips_comes_an_hour_later() -> None:
    entry = CalendarEntry("gap", date(2025, 3, 30), time(2, 30), "feed")
    event = read_back(calendar_text([entry], "Europe/Vienna", STAMP))["gap"]
    assert event.begin.datetime.astimezone(ZoneInfo("Europe/Vienna")).time() == time(3, 30)


def test_importing_again_updates_instead_of_doubling() -> None:
    """RFC 5545, 3.8.7.4: the same UID with a higher SEQUENCE is a revision. Mark: published."""
    later = CalendarEntry(FEED.uid, date(2025, 3, 12), time(19), "feed Ember")
    first = calendar_text([FEED], "Europe/Vienna", STAMP)
    second = calendar_text([later], "Europe/Vienna", STAMP + timedelta(seconds=1))
    shelf = read_back(first) | read_back(second)
    assert list(shelf) == [FEED.uid]
    assert shelf[FEED.uid].begin.datetime.day == 12

    def number(text: str) -> int:
        return int(next(x for x in unfolded(text) if x.startswith("SEQUENCE:")).split(":")[1])

    assert number(second) > number(first) > 0
    assert number(second) < 2**31


def test_the_same_tasks_at_the_same_moment_give_the_same_text() -> None:
    text = calendar_text([FEED, CLEAN], "Europe/Vienna", STAMP)
    assert calendar_text([CLEAN, FEED], "Europe/Vienna", STAMP) == text
    assert "DTSTAMP:20250301T120000Z" in unfolded(text)


def test_a_stamp_in_another_zone_is_written_in_utc() -> None:
    stamp = STAMP.astimezone(ZoneInfo("Asia/Tokyo"))
    assert calendar_text([FEED], "UTC", stamp) == calendar_text([FEED], "UTC", STAMP)


def test_no_alarm_unless_asked() -> None:
    assert "VALARM" not in calendar_text([FEED, CLEAN], "UTC", STAMP)


def test_a_timed_alarm_sounds_before_the_task() -> None:
    event = read_back(calendar_text([FEED], "Europe/Vienna", STAMP, 30))[FEED.uid]
    (alarm,) = event.alarms
    assert alarm.trigger == timedelta(minutes=-30)
    assert alarm.display_text == "feed Ember"


@pytest.mark.parametrize("day", [date(2025, 3, 30), date(2025, 10, 26), date(2025, 7, 1)])
def test_an_all_day_alarm_sounds_in_the_morning_even_when_clocks_change(day: date) -> None:
    entry = CalendarEntry("c", day, None, "clean")
    (alarm,) = read_back(calendar_text([entry], "Europe/Vienna", STAMP, 60))["c"].alarms
    local = alarm.trigger.datetime.astimezone(ZoneInfo("Europe/Vienna"))
    assert (local.date(), local.time()) == (day, time(8))


def test_lines_end_in_crlf_and_stay_within_75_octets() -> None:
    """RFC 5545, 3.1. Mark: published."""
    entry = CalendarEntry(
        "long", FEED.day, FEED.time, "Fütterung 🦎 " * 40, "so; many, words\\ " * 40
    )
    text = calendar_text([entry], "Europe/Vienna", STAMP, 15)
    assert text.endswith("END:VCALENDAR\r\n")
    assert "\n" not in text.replace("\r\n", "")
    assert max(len(line.encode()) for line in text.split("\r\n")) <= 75


def test_awkward_words_come_back_as_they_were() -> None:
    title, words = "<b>Nora; אבג, \\ {{7*7}}", 'line one\nline two; "quoted", back\\slash'
    entry = CalendarEntry("x", FEED.day, None, title, words)
    event = read_back(calendar_text([entry], "UTC", STAMP))["x"]
    assert (event.name, event.description) == (title, words)


def test_a_typed_backslash_n_stays_two_characters() -> None:
    """RFC 5545, 3.3.11: a backslash is escaped by itself. Read raw: `ics` 0.7 unescapes it wrongly.

    Mark: published.
    """
    entry = CalendarEntry("x", FEED.day, None, r"rack\nine")
    assert r"SUMMARY:rack\\nine" in unfolded(calendar_text([entry], "UTC", STAMP))


def test_control_characters_and_half_surrogates_do_no_harm() -> None:
    entry = CalendarEntry("x", FEED.day, None, "a\x1b[31mred\ud800\r\nEND:VEVENT", "b\x00\r\nc")
    event = read_back(calendar_text([entry], "UTC", STAMP))["x"]
    assert event.name == "a[31mred? END:VEVENT"
    assert event.description == "b\nc"


def test_no_tasks_are_an_empty_calendar() -> None:
    assert "BEGIN:VEVENT" not in calendar_text([], "UTC", STAMP)


@settings(max_examples=40, deadline=None)
@given(st.text(max_size=60), st.text(max_size=60), st.dates(date(1990, 1, 1), date(2090, 1, 1)))
def test_whatever_is_written_is_one_event_with_its_day(title: str, words: str, day: date) -> None:
    entry = CalendarEntry("u", day, None, title, words)
    (event,) = read_back(calendar_text([entry], "Europe/Vienna", STAMP)).values()
    assert event.begin.date() == day


def test_ids_are_stable_distinct_and_show_no_name() -> None:
    uid = stable_uid("collection", "feeding", "meal", "Ember", "1")
    assert uid == stable_uid("collection", "feeding", "meal", "Ember", "1")
    assert uid != stable_uid("collection", "feeding", "meal", "Ember1", "")
    assert "Ember" not in uid
    assert uid.endswith("@warmside")


def test_two_tasks_with_one_id_are_refused() -> None:
    with pytest.raises(BadInput, match="feed-1@warmside"):
        calendar_text([FEED, FEED], "UTC", STAMP)


@pytest.mark.parametrize("zone", ["Vienna/Europe", "", "../../etc/passwd", "Europe", "a\x00b"])
def test_an_unknown_zone_is_refused(zone: str) -> None:
    with pytest.raises(BadInput, match="no time zone"):
        calendar_text([FEED], zone, STAMP)


@pytest.mark.parametrize("minutes", [-1, 10_081])
def test_an_alarm_that_cannot_be_is_refused(minutes: int) -> None:
    with pytest.raises(BadInput, match=f"an alarm {minutes} minutes"):
        calendar_text([FEED], "UTC", STAMP, minutes)


def test_the_calendar_library_is_loaded_only_when_a_calendar_is_written() -> None:
    code = (
        "import sys; sys.path[:0] = sys.argv[1:]\n"
        "import warmside.faces.calendar_file; print('icalendar' in sys.modules)"
    )
    run = subprocess.run(
        [sys.executable, "-c", code, *sys.path], capture_output=True, text=True, check=True
    )
    assert run.stdout.strip() == "False"
