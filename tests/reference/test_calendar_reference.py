"""Clock changes, instants and calendar days against law, standard and a second library."""

from __future__ import annotations

import re
from datetime import UTC, date, datetime, timedelta
from functools import cache
from zoneinfo import ZoneInfo

import pytest
from dateutil import tz  # type: ignore[import-untyped]
from hypothesis import given
from hypothesis import strategies as st

from warmside.core.values.errors import BadInput
from warmside.core.values.moments import instant_text, parse_instant, parse_when

NOW = datetime(2026, 1, 1, tzinfo=UTC)


def nth_sunday(year: int, month: int, n: int) -> date:
    """The nth Sunday of a month; -1 is the last. Sundays have ordinals divisible by 7."""
    if n > 0:
        return date.fromordinal(-(-date(year, month, 1).toordinal() // 7) * 7 + 7 * (n - 1))
    after = date(year + month // 12, month % 12 + 1, 1).toordinal()
    return date.fromordinal((after - 1) // 7 * 7)


def utc_of(text: str, zone: str) -> str:
    at = parse_when(text, NOW, ZoneInfo(zone)).at
    assert at is not None
    return instant_text(at)


def both_of(text: str, zone: str) -> list[str]:
    """The two instants that are offered for a time that comes twice, earlier first."""
    with pytest.raises(BadInput, match="comes twice") as told:
        parse_when(text, NOW, ZoneInfo(zone))
    return [utc_of(words, zone) for words in re.findall(r"\S+T\S+", str(told.value))]


# zone, law, day on which clocks go forward, back: (month, nth Sunday); local hour that is skipped,
# local hour that comes twice; offsets in hours in winter and in summer
LAWS = [
    ("Europe/Berlin", (3, -1), (10, -1), 2, 2, 1, 2),
    ("America/Los_Angeles", (3, 2), (11, 1), 2, 1, -8, -7),
    ("Australia/Sydney", (10, 1), (4, 1), 2, 2, 10, 11),
    ("Pacific/Auckland", (9, -1), (4, 1), 2, 2, 12, 13),
]


@pytest.mark.parametrize("year", [2024, 2025, 2026])
@pytest.mark.parametrize(("zone", "ahead", "back", "skipped", "twice", "winter", "summer"), LAWS)
def test_change_days_follow_the_law(
    zone: str,
    ahead: tuple[int, int],
    back: tuple[int, int],
    skipped: int,
    twice: int,
    winter: int,
    summer: int,
    year: int,
) -> None:
    """The rules in force, published: Directive 2000/84/EC (last Sundays of March and October, 01:00
    UTC); Energy Policy Act of 2005, section 110 (second Sunday of March to first of November, 2
    am); Standard Time Act 1987 (New South Wales, first Sundays of October and April); New Zealand
    Daylight Time Order 2007 (last Sunday of September to first Sunday of April). Rules and titles
    from memory; the days are computed here from the rules, without a time zone database.
    """
    day = nth_sunday(year, *ahead)
    with pytest.raises(BadInput, match="clock jumped forward"):
        parse_when(f"{day} {skipped:02}:00", NOW, ZoneInfo(zone))
    with pytest.raises(BadInput, match="clock jumped forward"):
        parse_when(f"{day} {skipped:02}:59", NOW, ZoneInfo(zone))
    change = datetime(day.year, day.month, day.day, skipped) - timedelta(hours=winter)
    assert utc_of(f"{day} {skipped + 1:02}:00", zone) == change.isoformat() + "Z"
    before = change - timedelta(minutes=1)
    assert utc_of(f"{day} {skipped - 1:02}:59", zone) == before.isoformat() + "Z"

    day = nth_sunday(year, *back)
    wall = datetime(day.year, day.month, day.day, twice, 30)
    both = [(wall - timedelta(hours=ahead_of)).isoformat() + "Z" for ahead_of in (summer, winter)]
    assert both_of(f"{day} {twice:02}:30", zone) == both
    after = datetime(day.year, day.month, day.day, twice + 1) - timedelta(hours=winter)
    assert utc_of(f"{day} {twice + 1:02}:00", zone) == after.isoformat() + "Z"


def test_a_change_at_midnight_makes_the_day_begin_at_one() -> None:
    """Brazil, decree 9.242 of 2017: summer time from Sunday 4 November 2018, 00:00; it ended on 17
    February 2018 at 24:00. From memory; agrees with the IANA database."""
    zone = ZoneInfo("America/Sao_Paulo")
    with pytest.raises(BadInput, match="write 2018-11-04 01:00"):
        parse_when("2018-11-04 00:00", NOW, zone)
    assert parse_when("2018-11-04", NOW, zone).day == date(2018, 11, 4)
    both = ["2018-02-18T01:30:00Z", "2018-02-18T02:30:00Z"]
    assert both_of("2018-02-17 23:30", "America/Sao_Paulo") == both
    assert utc_of("2018-02-18 00:00", "America/Sao_Paulo") == "2018-02-18T03:00:00Z"


def test_yesterday_is_the_day_before_even_when_a_day_has_23_or_25_hours() -> None:
    """Directive 2000/84/EC, days of 2026 as in the test above; published."""
    berlin = ZoneInfo("Europe/Berlin")
    for now, day in (
        (datetime(2026, 3, 29, 22, 30, tzinfo=UTC), date(2026, 3, 29)),
        (datetime(2026, 10, 25, 23, 30, tzinfo=UTC), date(2026, 10, 25)),
    ):
        when = parse_when("yesterday 12:00", now, berlin)
        assert when.day == day
        local = when.local(berlin)
        assert local is not None and local.hour == 12


ZONES = [
    "Europe/Berlin",
    "America/Los_Angeles",
    "America/Sao_Paulo",
    "Australia/Sydney",
    "Australia/Lord_Howe",
    "Pacific/Auckland",
    "Asia/Kathmandu",
]


@cache
def around_a_change(zone: str) -> st.SearchStrategy[datetime]:
    """Local times in the hours around a change of 2000 to 2030, and any other."""
    anywhere = st.datetimes(datetime(2000, 1, 1), datetime(2030, 1, 1))
    at = ZoneInfo(zone)
    noons = [datetime(2000, 1, 1, 12) + timedelta(days=n) for n in range(365 * 30)]
    offsets = [noon.replace(tzinfo=at).utcoffset() for noon in noons]
    changes = [
        n for n, before, after in zip(noons, offsets, offsets[1:], strict=False) if before != after
    ]
    if not changes:
        return anywhere
    near = st.builds(
        lambda noon, minutes: noon + timedelta(minutes=minutes),
        st.sampled_from(changes),
        st.integers(6 * 60, 18 * 60),
    )
    return st.one_of(near, anywhere)


@pytest.mark.parametrize("zone", ZONES)
@given(data=st.data())
def test_local_times_exist_and_fall_where_a_second_library_says(
    zone: str, data: st.DataObject
) -> None:
    """python-dateutil's own reading of the zone files, an implementation apart from zoneinfo."""
    wall = data.draw(around_a_change(zone)).replace(second=0, microsecond=0)
    theirs = tz.gettz(zone)
    text = wall.isoformat(sep=" ", timespec="minutes")
    if not tz.datetime_exists(wall, theirs):
        with pytest.raises(BadInput, match="clock jumped forward"):
            parse_when(text, NOW, ZoneInfo(zone))
        return
    expected = [wall.replace(tzinfo=theirs, fold=fold).astimezone(UTC) for fold in (0, 1)]
    if tz.datetime_ambiguous(wall, theirs):
        assert both_of(text, zone) == list(map(instant_text, expected))
    else:
        assert utc_of(text, zone) == instant_text(expected[0])


@pytest.mark.parametrize(
    ("text", "stored"),
    [
        ("1985-04-12T23:20:50.52Z", "1985-04-12T23:20:50Z"),
        ("1996-12-19T16:39:57-08:00", "1996-12-20T00:39:57Z"),
        ("1937-01-01T12:00:27.87+00:20", "1937-01-01T11:40:27Z"),
    ],
)
def test_instants_read_as_in_the_standard(text: str, stored: str) -> None:
    """RFC 3339, section 5.8, examples; published. Ours drops parts of a second."""
    assert instant_text(parse_instant(text)) == stored
    assert parse_when(text, NOW, ZoneInfo("UTC")).at == parse_instant(stored)


def test_a_leap_second_is_refused_in_words() -> None:
    """RFC 3339, section 5.8, gives 1990-12-31T23:59:60Z; Python's calendar has no such second."""
    with pytest.raises(BadInput, match="no time of day"):
        parse_instant("1990-12-31T23:59:60Z")


@pytest.mark.parametrize(
    ("year", "leap"), [(1900, False), (2000, True), (2023, False), (2024, True)]
)
def test_leap_days_follow_the_gregorian_rule(year: int, leap: bool) -> None:
    """RFC 3339, appendix C: divisible by 4, and not by 100 unless by 400; published."""
    if leap:
        assert parse_when(f"{year}-02-29", NOW, ZoneInfo("UTC")).day == date(year, 2, 29)
        return
    with pytest.raises(BadInput, match="no day of the calendar"):
        parse_when(f"{year}-02-29", NOW, ZoneInfo("UTC"))
