"""The computation alone: when it rains again, and where it rained too long."""

from __future__ import annotations

from datetime import date, timedelta

import pytest

from warmside_rainlog.rain import Chamber, Shower, minutes_by_day, next_rain, soaked

DAY = date(2026, 3, 5)
CHAMBER = Chamber(1, 2, 20, DAY)


@pytest.mark.parametrize(
    ("last", "due"),
    [(None, DAY), (DAY - timedelta(days=5), DAY - timedelta(days=3)), (DAY, date(2026, 3, 7))],
)
def test_it_rains_again_after_the_interval(last: date | None, due: date) -> None:
    assert next_rain(CHAMBER, last) == due


def test_minutes_add_up_for_each_place_and_day() -> None:
    showers = [Shower(1, DAY, 20, 1), Shower(1, DAY, 25, 2), Shower(2, DAY, 5, 3)]
    assert minutes_by_day(showers) == {(1, DAY): 45, (2, DAY): 5}


def test_a_place_is_soaked_beyond_the_limit_and_only_that_day() -> None:
    showers = [Shower(1, DAY, 100, 1), Shower(1, DAY, 21, 2), Shower(2, DAY, 120, 3)]
    assert soaked(showers, DAY, 120) == {1: 121}
    assert soaked(showers, DAY + timedelta(days=1), 120) == {}
