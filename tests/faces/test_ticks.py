"""Axes are marked at round numbers and calendar days."""

from __future__ import annotations

from datetime import date

import pytest
from hypothesis import given
from hypothesis import strategies as st

from warmside.faces.drawn.ticks import date_ticks, number_ticks


def labels(start: str, end: str, room: float) -> list[str]:
    low, high = (date.fromisoformat(day).toordinal() for day in (start, end))
    return [label for _, label in date_ticks(low, high, room)]


def test_numbers_are_multiples_of_one_two_or_five() -> None:
    assert [label for _, label in number_ticks(380, 650, 6)] == [
        "400",
        "450",
        "500",
        "550",
        "600",
        "650",
    ]
    assert [label for _, label in number_ticks(0.0, 0.31, 4)] == ["0.0", "0.1", "0.2", "0.3"]
    assert [label for _, label in number_ticks(-1.0, 1.0, 3)] == ["-1", "0", "1"]


@given(st.floats(-1e6, 1e6), st.floats(1e-3, 1e6), st.integers(2, 12))
def test_number_ticks_lie_within_and_are_not_too_many(low: float, room: float, most: int) -> None:
    ticks = number_ticks(low, low + room, most)
    assert 1 <= len(ticks) <= most
    slack = room * 1e-6
    assert all(low - slack <= value <= low + room + slack for value, _ in ticks)
    assert len({label for _, label in ticks}) == len(ticks)


@pytest.mark.parametrize(
    ("start", "end", "room", "shown"),
    [
        ("2025-03-01", "2025-03-04", 60, ["2025-03-01", "2025-03-02", "2025-03-03", "2025-03-04"]),
        ("2025-03-01", "2025-03-20", 60, ["2025-03-01", "2025-03-08", "2025-03-15"]),
        ("2024-12-15", "2025-03-20", 40, ["2025-01", "2025-02", "2025-03"]),
        ("2024-02-10", "2025-03-20", 40, ["2024-04", "2024-07", "2024-10", "2025-01"]),
        ("2012-02-10", "2025-03-20", 40, ["2014", "2016", "2018", "2020", "2022", "2024"]),
        ("2025-03-02", "2025-03-30", 10, ["2025-03-02"]),
    ],
)
def test_dates_take_the_finest_step_that_fits(
    start: str, end: str, room: float, shown: list[str]
) -> None:
    assert labels(start, end, room) == shown


@given(st.dates(), st.dates(), st.floats(8, 200))
def test_date_labels_fit_and_name_their_day(one: date, other: date, room: float) -> None:
    low, high = sorted((one, other))
    ticks = date_ticks(low.toordinal(), high.toordinal(), room)
    assert ticks
    assert all(low.toordinal() <= x <= high.toordinal() for x, _ in ticks)
    assert all(date.fromordinal(int(x)).isoformat().startswith(label) for x, label in ticks)
    assert len(ticks) == 1 or sum(len(label) + 1 for _, label in ticks) <= room


def test_less_than_a_day_is_marked_at_its_beginning() -> None:
    noon = date(2025, 3, 1).toordinal() + 0.5
    assert date_ticks(noon, noon + 0.25, 60) == ((noon, "2025-03-01"),)
