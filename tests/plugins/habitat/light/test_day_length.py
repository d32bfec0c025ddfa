"""Hours of day against an almanac's printed values, and a timer's table."""

from __future__ import annotations

from datetime import date

import pytest

from warmside.api import BadInput
from warmside.plugins.habitat.light.day_length import clock, day_hours, weeks
from warmside.plugins.habitat.light.uv import basking_span


@pytest.mark.parametrize(
    ("latitude", "on", "hours"),
    [
        (0.0, date(2026, 3, 20), 12 + 7 / 60),
        (40.0, date(2026, 6, 21), 15 + 1 / 60),
        (40.0, date(2026, 12, 21), 9 + 20 / 60),
        (-40.0, date(2026, 6, 21), 9 + 20 / 60),
        (60.0, date(2026, 6, 21), 18 + 52 / 60),
        (60.0, date(2026, 12, 21), 5 + 53 / 60),
    ],
)
def test_printed_days(latitude: float, on: date, hours: float) -> None:
    """Sunrise to sunset as in the tables of the Nautical Almanac at the solstices and equinox (from
    memory), to 3 minutes."""
    assert day_hours(latitude, on) == pytest.approx(hours, abs=3 / 60)


@pytest.mark.parametrize(("day", "hours"), [(1, 13 + 9 / 60), (10, 12 + 43 / 60), (30, 11.75)])
def test_days_of_a_college_weather_table(day: int, hours: float) -> None:
    """Luther College, Decorah, Iowa: sunrise and sunset of September by the conventions of the
    U.S. Naval Observatory, to 3 minutes (the place's 43.3 degrees north from memory)."""
    assert day_hours(43.3, date(2026, 9, day)) == pytest.approx(hours, abs=3 / 60)


@pytest.mark.parametrize(
    ("latitude", "on", "hours"),
    [
        (24.8, date(2026, 6, 21), 13 + 39 / 60 + 11 / 3600),
        (24.8, date(2026, 12, 22), 10 + 37 / 60 + 23 / 3600),
        (-0.25, date(2026, 6, 21), 12 + 6 / 60 + 32 / 3600),
        (-0.25, date(2026, 12, 21), 12 + 8 / 60 + 18 / 3600),
    ],
)
def test_days_near_the_equator(latitude: float, on: date, hours: float) -> None:
    """Abu Dhabi and Quito at the solstices, as a page on midnight suns of 2011 lists them with
    their latitudes; to 3 minutes."""
    assert day_hours(latitude, on) == pytest.approx(hours, abs=3 / 60)


def test_beyond_the_polar_circle() -> None:
    assert day_hours(75.0, date(2026, 6, 21)) == 24
    assert day_hours(75.0, date(2026, 12, 21)) == 0
    with pytest.raises(BadInput, match="between -90"):
        day_hours(91.0, date(2026, 6, 21))


def test_the_plain_table_is_twelve_hours() -> None:
    table = list(weeks(None, 2026, 720, 8, 14))
    assert {(w.hours, clock(w.on_minute), clock(w.off_minute)) for w in table} == {
        (12.0, "06:00", "18:00")
    }
    assert len(table) == 52 and table[0].begins == date(2026, 1, 1)


def test_a_table_follows_the_sun_within_its_bounds() -> None:
    found = [w.hours for w in weeks(48.2, 2026, 720, 8, 14)]
    assert min(found) == pytest.approx(8.35, abs=0.1) and max(found) == 14
    assert found.index(min(found)) in (50, 51, 0)


def test_uv_spans_of_a_zone() -> None:
    """Ferguson et al. 2010 as quoted: the highest index is 2.9 to 7.4 in zone 3."""
    assert basking_span((3, 3)) == (2.9, 7.4)
    assert basking_span((3, 4)) == (2.9, 9.5)
    with pytest.raises(BadInput):
        basking_span((5, 5))
