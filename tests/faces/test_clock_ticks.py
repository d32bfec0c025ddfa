"""An axis of instants is marked at even local times, on both days of a clock change too.

Clock changes after the time zone database: in Vienna 2025-03-30 and 2025-10-26, at 01:00 UTC.
"""

from __future__ import annotations

from datetime import UTC, datetime
from itertools import pairwise

from hypothesis import given
from hypothesis import strategies as st

from faces.specimen import VIENNA
from warmside.faces.drawn.clock_ticks import hour_ticks, instant_ticks, local_words


def at(day: int, hour: int, month: int = 3) -> float:
    return datetime(2025, month, day, hour, tzinfo=UTC).timestamp()


def labels(low: float, high: float, room: float) -> list[str]:
    return [label for _, label in instant_ticks(low, high, room, VIENNA)]


def test_midnight_is_told_by_its_date_and_the_rest_by_the_clock() -> None:
    assert labels(at(1, 20), at(2, 12), 60) == ["2025-03-02", "06:00", "12:00"]


def test_the_hour_that_a_clock_change_skips_has_no_mark() -> None:
    ticks = instant_ticks(at(29, 23), at(30, 4), 90, VIENNA)
    clock = [label for _, label in ticks]
    assert clock == ["2025-03-30", "01:00", "03:00", "04:00", "05:00", "06:00"]
    assert all(later - earlier == 3600 for (earlier, _), (later, _) in pairwise(ticks))


def test_the_hour_that_comes_twice_is_marked_the_first_time() -> None:
    found = instant_ticks(at(25, 22, 10), at(26, 4, 10), 120, VIENNA)
    ticks = {label: x for x, label in found}
    assert ticks["02:00"] == at(26, 0, 10)
    assert ticks["03:00"] - ticks["02:00"] == 7200


def test_many_days_are_marked_as_a_calendar_at_local_midnight() -> None:
    ticks = instant_ticks(at(1, 0), at(31, 0), 60, VIENNA)
    assert len(ticks) > 1
    assert all(local_words(x, VIENNA) == f"{label} 00:00" for x, label in ticks)


def test_a_day_of_hours_goes_from_midnight_to_midnight() -> None:
    assert [label for _, label in hour_ticks(40)] == ["00:00", "06:00", "12:00", "18:00", "24:00"]
    assert len(hour_ticks(200)) == 25
    assert len(hour_ticks(5)) == 2


@given(st.floats(-2e9, 4e9), st.floats(60, 1e9), st.integers(12, 200))
def test_marks_stand_within_in_order_and_never_more_than_there_is_room(
    low: float, span: float, room: int
) -> None:
    ticks = instant_ticks(low, low + span, room, VIENNA)
    places = [x for x, _ in ticks]
    assert places == sorted(set(places))
    assert all(low <= x <= low + span for x in places)
    assert len(ticks) <= max(1, room // 6)
