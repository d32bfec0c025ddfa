"""Times of a logger's file: orders of dates, kinds of clock, the hours on which clocks are set."""

from __future__ import annotations

from datetime import UTC, datetime, timedelta
from zoneinfo import ZoneInfo

import pytest
from hypothesis import given
from hypothesis import strategies as st

from warmside.plugins.habitat.logs.clock import Clock, Order, Times, standard_offset

VIENNA, HOWE = ZoneInfo("Europe/Vienna"), ZoneInfo("Australia/Lord_Howe")
NOW = int(datetime(2027, 1, 1, tzinfo=UTC).timestamp())


def times(order: Order = Order.YMD, clock: Clock = Clock.WALL, zone: ZoneInfo = VIENNA) -> Times:
    return Times(order, clock, zone, NOW)


def utc(text: str) -> int:
    return int(datetime.fromisoformat(text).replace(tzinfo=UTC).timestamp())


@pytest.mark.parametrize(
    ("order", "text"),
    [
        (Order.YMD, "2026-03-05 14:30"),
        (Order.YMD, "2026/03/05 14:30:00"),
        (Order.DMY, "05.03.2026 14:30"),
        (Order.DMY, "5/3/26 02:30 PM"),
        (Order.MDY, "3/5/2026 2:30:00 p.m."),
        (Order.YMD, "2026-03-05T13:30:00Z"),
        (Order.YMD, "2026-03-05T15:30:00+02:00"),
    ],
)
def test_one_instant_however_it_is_written(order: Order, text: str) -> None:
    assert times(order).seconds(text) == utc("2026-03-05 13:30")


def test_midnight_and_noon_of_a_clock_with_halves() -> None:
    read = times(Order.MDY, Clock.UTC)
    assert read.seconds("3/5/2026 12:05 AM") == utc("2026-03-05 00:05")
    assert read.seconds("3/5/2026 12:05 PM") == utc("2026-03-05 12:05")


def test_the_hour_that_comes_twice_is_told_apart_by_order() -> None:
    """The clocks of Vienna went back from 03:00 to 02:00 on 2026-10-25, at 01:00 UTC."""
    texts = ["01:50", "02:10", "02:50", "02:10", "02:50", "03:10"]
    read = times()
    found = [read.seconds(f"2026-10-25 {t}") for t in texts]
    assert found == [
        utc(f"2026-10-{t}")
        for t in ("24 23:50", "25 00:10", "25 00:50", "25 01:10", "25 01:50", "25 02:10")
    ]
    backwards = times()
    assert [backwards.seconds(f"2026-10-25 {t}") for t in reversed(texts)] == found[::-1]


def test_an_hour_that_never_came_is_refused_on_the_wall_and_no_other_clock() -> None:
    with pytest.raises(ValueError, match=r"never came.*--clock standard"):
        times().seconds("2026-03-29 02:30")
    assert times(clock=Clock.STANDARD).seconds("2026-03-29 02:30") == utc("2026-03-29 01:30")
    assert times(clock=Clock.UTC).seconds("2026-03-29 02:30") == utc("2026-03-29 02:30")


def test_standard_time_south_of_the_equator_is_that_of_its_winter() -> None:
    assert standard_offset(HOWE, datetime(2026, 1, 5)) == timedelta(hours=10, minutes=30)


def test_a_clock_that_is_set_by_half_an_hour() -> None:
    """Lord Howe set its clock back by 30 minutes at 02:00 on 2026-04-05 (15:00 UTC the day
    before)."""
    read = times(zone=HOWE)
    found = [read.seconds(f"2026-04-05 01:{m}") for m in ("10", "40", "40")]
    assert found == [utc(f"2026-04-04 {t}") for t in ("14:10", "14:40", "15:10")]


@pytest.mark.parametrize(
    ("text", "told"),
    [
        ("2026-02-30 08:00", "no such day"),
        ("2026-03-05 08:61", "no such minute"),
        ("05.03.2026 08:30", "written otherwise.*2026-03-05 08:30"),
        ("yesterday", "cannot be read"),
        ("", "cannot be read"),
        ("1980-01-01 00:00", "clock was not set"),
        ("2030-01-01 00:00", "has not come yet"),
        ("2026-03-05 13:30 PM", "12-hour clock"),
    ],
)
def test_what_is_no_time_is_said(text: str, told: str) -> None:
    with pytest.raises(ValueError, match=told):
        times().seconds(text)


@given(st.datetimes(datetime(2024, 1, 1), datetime(2026, 12, 30)), st.sampled_from(Clock))
def test_a_written_instant_is_read_as_itself(moment: datetime, clock: Clock) -> None:
    """Against the standard library's own zones, to the second."""
    moment = moment.replace(microsecond=0, tzinfo=UTC)
    offset = standard_offset(VIENNA, moment.replace(tzinfo=None))
    shown = {
        Clock.WALL: moment.astimezone(VIENNA),
        Clock.STANDARD: moment + offset,
        Clock.UTC: moment,
    }[clock]
    read = times(clock=clock)
    twice = moment.astimezone(VIENNA).fold and clock is Clock.WALL
    if twice:
        read.seconds(f"{shown - timedelta(minutes=1):%Y-%m-%d} 01:59")
        read.seconds(f"{shown:%Y-%m-%d %H:%M:%S}")
    assert read.seconds(f"{shown:%Y-%m-%d %H:%M:%S}") == int(moment.timestamp())
