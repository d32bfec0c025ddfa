"""Dates of tables from elsewhere are read in the format stated, never guessed."""

from __future__ import annotations

from datetime import UTC, date, datetime, time
from zoneinfo import ZoneInfo

import pytest
from hypothesis import given
from hypothesis import strategies as st

from warmside.core.values.errors import BadInput
from warmside.core.values.moments import When, parse_stated, wall_when

BERLIN = ZoneInfo("Europe/Berlin")


@pytest.mark.parametrize(
    ("text", "fmt", "day", "clock"),
    [
        ("2026-03-05", "YYYY-MM-DD", date(2026, 3, 5), None),
        ("05.03.2026", "DD.MM.YYYY", date(2026, 3, 5), None),
        ("5.3.2026", "DD.MM.YYYY", date(2026, 3, 5), None),
        ("03/05/2026", "MM/DD/YYYY", date(2026, 3, 5), None),
        ("03/05/2026", "DD/MM/YYYY", date(2026, 5, 3), None),
        ("05/03/2026 08:30", "DD/MM/YYYY HH:mm", date(2026, 3, 5), time(8, 30)),
        ("2026-03-05 08:30:15", "YYYY-MM-DD HH:mm:ss", date(2026, 3, 5), time(8, 30, 15)),
        ("2026-03-05T08:30", "YYYY-MM-DDTHH:mm", date(2026, 3, 5), time(8, 30)),
        ("20260305", "YYYYMMDD", date(2026, 3, 5), None),
        ("3/5/2026 8:30 PM", "MM/DD/YYYY hh:mm AM", date(2026, 3, 5), time(20, 30)),
        ("3/5/2026 12:05 am", "MM/DD/YYYY hh:mm AM", date(2026, 3, 5), time(0, 5)),
        ("3/5/2026 12:05 pm", "MM/DD/YYYY hh:mm AM", date(2026, 3, 5), time(12, 5)),
    ],
)
def test_a_stated_format_is_followed_without_guessing(
    text: str, fmt: str, day: date, clock: time | None
) -> None:
    assert parse_stated(text, fmt) == (day, clock)


@pytest.mark.parametrize(
    ("text", "fmt"),
    [
        ("31.02.2026", "DD.MM.YYYY"),
        ("13/13/2026", "MM/DD/YYYY"),
        ("2026-03-05", "DD.MM.YYYY"),
        ("05.03.2026 08:30", "DD.MM.YYYY"),
        ("05.03.2026", "DD.MM.YYYY HH:mm"),
        ("05.03.2026 24:00", "DD.MM.YYYY HH:mm"),
        ("3/5/2026 13:00 pm", "MM/DD/YYYY hh:mm AM"),
        ("2026111", "YYYYMMDD"),
        ("05.03.26", "DD.MM.YYYY"),
        ("", "DD.MM.YYYY"),
    ],
)
def test_a_value_that_does_not_fit_is_refused_naming_value_and_format(text: str, fmt: str) -> None:
    with pytest.raises(BadInput) as caught:
        parse_stated(text, fmt)
    assert fmt in str(caught.value)
    assert (text or "nothing") in str(caught.value)


@pytest.mark.parametrize(
    "fmt",
    ["", "DD.MM.YY", "MM.YYYY", "DD.DD.YYYY", "YYYY-MM-DD HH", "YYYY-MM-DD hh:mm", "%Y-%m-%d"],
)
def test_a_format_that_leaves_something_open_is_refused(fmt: str) -> None:
    with pytest.raises(BadInput, match="date format"):
        parse_stated("2026-03-05", fmt)


@given(
    st.datetimes(datetime(1800, 1, 1), datetime(2999, 12, 31)),
    st.sampled_from(["DD.MM.YYYY HH:mm:ss", "YYYYMMDD HHmmss", "ss:mm:HH MM/DD/YYYY"]),
)
def test_a_written_date_time_reads_back_in_its_format(wall: datetime, fmt: str) -> None:
    text = fmt
    for letters, code in (("YYYY", "%Y"), ("MM", "%m"), ("DD", "%d")):
        text = text.replace(letters, wall.strftime(code))
    for letters, code in (("HH", "%H"), ("mm", "%M"), ("ss", "%S")):
        text = text.replace(letters, wall.strftime(code))
    assert parse_stated(text, fmt) == (wall.date(), wall.time().replace(microsecond=0))


def test_a_stated_time_becomes_a_moment_in_the_zone() -> None:
    day, clock = parse_stated("05.03.2026 08:30", "DD.MM.YYYY HH:mm")
    assert wall_when(day, clock, BERLIN).at == datetime(2026, 3, 5, 7, 30, tzinfo=UTC)
    assert wall_when(day, None, BERLIN) == When(day)
