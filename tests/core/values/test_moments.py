"""Days and moments are read as typed, on the keeper's clock, or refused in one line."""

from __future__ import annotations

from datetime import UTC, date, datetime, time, timedelta
from zoneinfo import ZoneInfo

import pytest
from hypothesis import given
from hypothesis import strategies as st

from warmside.core.values.doubled_hour import InOrder
from warmside.core.values.doubled_hour import instants as shown_at
from warmside.core.values.errors import BadInput
from warmside.core.values.moments import (
    When,
    days_ago_words,
    instant_text,
    local_text,
    parse_clock,
    parse_day,
    parse_instant,
    parse_when,
    wall_when,
    zone_named,
)

BERLIN = ZoneInfo("Europe/Berlin")
NOW = datetime(2026, 3, 5, 7, 30, 15, 250_000, tzinfo=UTC)  # 08:30 in Berlin
TODAY = date(2026, 3, 5)

days = st.dates(date(1800, 1, 1), date(2999, 12, 31))
instants = st.datetimes(datetime(1900, 1, 1), datetime(2100, 1, 1), timezones=st.just(UTC))
zones = st.sampled_from(["UTC", "Europe/Berlin", "America/Los_Angeles", "Australia/Lord_Howe"])


@pytest.mark.parametrize(
    ("text", "day"),
    [
        ("2026-03-05", date(2026, 3, 5)),
        ("2026-3-5", date(2026, 3, 5)),
        ("today", date(2026, 3, 5)),
        (" Yesterday ", date(2026, 3, 4)),
        ("tomorrow", date(2026, 3, 6)),
        ("3 days ago", date(2026, 3, 2)),
        ("1 day ago", date(2026, 3, 4)),
        ("2 weeks ago", date(2026, 2, 19)),
        ("in 2 weeks", date(2026, 3, 19)),
    ],
)
def test_a_day_alone_stays_a_day(text: str, day: date) -> None:
    assert parse_when(text, NOW, BERLIN) == When(day)
    assert parse_day(text, NOW, BERLIN) == day


@pytest.mark.parametrize(
    ("text", "day", "utc"),
    [
        ("now", "2026-03-05", "2026-03-05T07:30:15Z"),
        ("08:30", "2026-03-05", "2026-03-05T07:30:00Z"),
        ("8:30", "2026-03-05", "2026-03-05T07:30:00Z"),
        ("yesterday 21:15", "2026-03-04", "2026-03-04T20:15:00Z"),
        ("3 days ago 00:05", "2026-03-02", "2026-03-01T23:05:00Z"),
        ("2026-03-05 08:30", "2026-03-05", "2026-03-05T07:30:00Z"),
        ("2026-03-05T08:30:59.9", "2026-03-05", "2026-03-05T07:30:59Z"),
        ("2026-07-05T08:30", "2026-07-05", "2026-07-05T06:30:00Z"),
        ("2026-03-05T08:30Z", "2026-03-05", "2026-03-05T08:30:00Z"),
        ("2026-03-05T23:30-05:00", "2026-03-06", "2026-03-06T04:30:00Z"),
        ("2026-03-05 00:30 +0530", "2026-03-04", "2026-03-04T19:00:00Z"),
    ],
)
def test_a_moment_has_the_local_day_and_the_instant(text: str, day: str, utc: str) -> None:
    when = parse_when(text, NOW, BERLIN)
    assert when.at is not None
    assert (when.day.isoformat(), instant_text(when.at)) == (day, utc)


def test_today_is_the_day_on_the_keepers_clock() -> None:
    late = datetime(2026, 3, 5, 23, 30, tzinfo=UTC)
    assert parse_day("today", late, BERLIN) == date(2026, 3, 6)
    assert parse_day("today", late, ZoneInfo("America/Los_Angeles")) == date(2026, 3, 5)
    assert parse_when("now", late, BERLIN).day == date(2026, 3, 6)


@pytest.mark.parametrize(
    ("text", "said"),
    [
        ("2026-02-30", "no day of the calendar"),
        ("2026-02-30 08:00", "no day of the calendar"),
        ("2026-13-01", "no day of the calendar"),
        ("0026-03-05", "check the year"),
        ("20260-03-05", "cannot be read"),
        ("24:00", "no time of day"),
        ("2026-03-05 08:60", "no time of day"),
        ("2026-03-05T08:30+99:00", "offset"),
        ("05.03.2026", "read in two ways; write it as 2021-04-01"),
        ("03/05/2026", "read in two ways; write it as 2021-04-01"),
        ("monday", "cannot be read"),
        ("99999 weeks ago", "check the"),
        ("", "nothing"),
        ("2026-03-29 02:30", "the clock jumped forward"),
    ],
)
def test_what_is_no_moment_is_refused(text: str, said: str) -> None:
    with pytest.raises(BadInput, match=said):
        parse_when(text, NOW, BERLIN)


def test_a_time_is_no_day() -> None:
    with pytest.raises(BadInput, match="day 08:30 cannot be read"):
        parse_day("08:30", NOW, BERLIN)


def test_a_jumped_time_is_answered_with_one_that_exists() -> None:
    with pytest.raises(BadInput) as caught:
        parse_when("2026-03-29 02:30", NOW, BERLIN)
    offered = str(caught.value).split("write ")[1].split(" or ")[0]
    assert parse_when(offered, NOW, BERLIN).day == date(2026, 3, 29)


def test_of_an_hour_that_comes_twice_it_is_asked_which_and_each_can_be_written() -> None:
    with pytest.raises(BadInput, match="02:30 comes twice in Europe/Berlin") as caught:
        parse_when("2026-10-25 02:30", NOW, BERLIN)
    said = str(caught.value).split("write ")[1]
    first, second = (part.split()[0] for part in said.split(" or "))
    assert parse_when(first, NOW, BERLIN).at == datetime(2026, 10, 25, 0, 30, tzinfo=UTC)
    assert parse_when(second, NOW, BERLIN).at == datetime(2026, 10, 25, 1, 30, tzinfo=UTC)


def test_while_the_second_is_to_come_the_first_is_meant() -> None:
    between = datetime(2026, 10, 25, 1, 10, tzinfo=UTC)
    assert parse_when("02:30", between, BERLIN).at == datetime(2026, 10, 25, 0, 30, tzinfo=UTC)
    with pytest.raises(BadInput, match="comes twice"):
        parse_when("02:30", between + timedelta(minutes=20), BERLIN)


@pytest.mark.parametrize("downwards", [False, True])
def test_rows_in_order_tell_which_of_two_hours_is_meant(downwards: bool) -> None:
    """Every 20 minutes through the night on which the clock is set back, but for the first."""
    first = datetime(2026, 10, 24, 23, 40, tzinfo=UTC)
    night = [first + timedelta(minutes=20 * n) for n in range(12)]
    night = night[::-1] if downwards else night
    order, back = InOrder(), []
    for at in night:
        wall = at.astimezone(BERLIN)
        when = wall_when(wall.date(), wall.time(), BERLIN, order.choose)
        order.went_on(when.at)
        back.append(when.at)
    assert back == night


@given(instants, zones)
def test_a_clock_shows_its_own_time_at_every_instant_that_is_found(
    at: datetime, zone_name: str
) -> None:
    zone = ZoneInfo(zone_name)
    wall = at.astimezone(zone).replace(microsecond=0)
    found = shown_at(wall.date(), wall.time(), zone)
    assert at.replace(microsecond=0) in found and list(found) == sorted(set(found))
    assert all(x.astimezone(zone).replace(tzinfo=None) == wall.replace(tzinfo=None) for x in found)


@given(st.text(), zones)
def test_any_text_is_read_or_refused_in_one_line(text: str, zone: str) -> None:
    try:
        parse_when(text, NOW, ZoneInfo(zone))
    except BadInput as refused:
        assert str(refused).isprintable()


@given(st.text(alphabet="0123456789-:TZ+. agodyweks", max_size=25))
def test_text_that_resembles_dates_is_read_or_refused_too(text: str) -> None:
    try:
        parse_when(text, NOW, BERLIN)
    except BadInput as refused:
        assert str(refused).isprintable()


@given(instants, zones)
def test_what_is_shown_reads_back_as_the_same_minute_of_the_same_day(
    at: datetime, zone_name: str
) -> None:
    zone = ZoneInfo(zone_name)
    shown = local_text(at.astimezone(zone).date(), at, zone)
    wall = at.astimezone(zone).replace(second=0, microsecond=0)
    if len(shown_at(wall.date(), wall.time(), zone)) == 2:
        return  # an hour that comes twice is asked about
    back = parse_when(shown, NOW, zone)
    assert local_text(back.day, back.at, zone) == shown
    assert back.day == at.astimezone(zone).date()
    assert back.at is not None and timedelta(0) <= at - back.at < timedelta(minutes=1)


@given(days)
def test_a_day_without_time_is_shown_and_read_as_a_day(day: date) -> None:
    assert parse_when(local_text(day, None, BERLIN), NOW, BERLIN) == When(day)


@given(instants)
def test_stored_instants_sort_as_text_and_read_back(at: datetime) -> None:
    text = instant_text(at)
    assert parse_instant(text) == at.replace(microsecond=0)
    assert (text < instant_text(NOW)) == (at.replace(microsecond=0) < NOW.replace(microsecond=0))


def test_an_instant_without_zone_is_refused() -> None:
    with pytest.raises(BadInput, match="write it as 2026-03-05T07:30:00Z"):
        parse_instant("2026-03-05T07:30:00")
    with pytest.raises(ValueError, match="time zone"):
        instant_text(datetime(2026, 3, 5))


def test_when_is_shown_on_the_local_clock() -> None:
    when = parse_when("2026-07-01T12:00Z", NOW, BERLIN)
    local = when.local(BERLIN)
    assert local is not None and (local.hour, local.utcoffset()) == (14, timedelta(hours=2))
    assert local_text(when.day, when.at, BERLIN) == "2026-07-01 14:00"
    assert When(TODAY).local(BERLIN) is None


@given(days, st.integers(-99_999, 99_999))
def test_how_long_ago_is_said_in_words_that_can_be_typed(today: date, ahead: int) -> None:
    day = date.fromordinal(min(max(today.toordinal() + ahead, 657_073), 1_095_000))
    midday = datetime.combine(today, time(12), tzinfo=UTC)
    if abs((day - today).days) <= 99_999:
        assert parse_day(days_ago_words(day, today), midday, ZoneInfo("UTC")) == day


def test_words_for_near_days() -> None:
    said = [days_ago_words(TODAY + timedelta(days=n), TODAY) for n in (-12, -1, 0, 1, 3)]
    assert said == ["12 days ago", "yesterday", "today", "tomorrow", "in 3 days"]


def test_a_time_of_day_is_read_to_the_minute() -> None:
    assert parse_clock(" 8:05 ") == parse_clock("08:05") == time(8, 5)
    assert parse_clock("00:00") == time(0, 0)


@pytest.mark.parametrize("text", ["8", "08:30:15", "8h30", "24:00", "08:60", "noon", ""])
def test_what_is_no_time_of_day_is_refused_in_one_line(text: str) -> None:
    with pytest.raises(BadInput) as refused:
        parse_clock(text)
    assert "\n" not in str(refused.value) and "write" in str(refused.value)


def test_a_zone_is_found_by_its_name() -> None:
    assert zone_named(" Europe/Berlin ").key == "Europe/Berlin"


@pytest.mark.parametrize(
    ("name", "meant"),
    [
        ("europe/berlin", "Europe/Berlin"),
        ("Europe/Berln", "Europe/Berlin"),
        ("Berlin", "Europe/Berlin"),
        ("new york", "America/New_York"),
    ],
)
def test_a_zone_nearly_named_is_suggested(name: str, meant: str) -> None:
    with pytest.raises(BadInput, match=f"did you mean '{meant}'"):
        zone_named(name)


@pytest.mark.parametrize("name", ["", "Europe", "../Berlin", "/etc", "x" * 300, "a\0b", "ü"])
def test_what_is_no_zone_is_refused_in_one_line(name: str) -> None:
    with pytest.raises(BadInput) as caught:
        zone_named(name)
    assert str(caught.value).isprintable()
