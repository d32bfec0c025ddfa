"""Intervals between sheds, exact and bounded."""

from __future__ import annotations

import math
from datetime import date

import pytest
from hypothesis import example, given
from hypothesis import strategies as st

from warmside.api import BadInput
from warmside.plugins.shed.cycles.cycle import Seen, Stage, read
from warmside.plugins.shed.forecast.intervals import (
    between,
    exactly,
    last_shed,
    loosened,
    of_history,
    perhaps_missed,
)

TODAY = date(2025, 12, 31)


def shed(day: str, event: int = 0) -> Seen:
    return Seen(date.fromisoformat(day), Stage.SHED, event)


def test_dated_sheds_give_exact_intervals_with_their_records() -> None:
    history = read([shed("2025-01-01", 1), shed("2025-02-10", 2), shed("2025-03-12", 3)], TODAY)
    first, second = of_history(history)
    assert (first.low_days, first.high_days, first.events) == (40, 40, (1, 2))
    assert first.started == date(2025, 1, 1)
    assert second.low_days == 30
    assert last_shed(history) == (date(2025, 3, 12), date(2025, 3, 12))


def test_a_shed_not_recorded_bounds_the_intervals_on_both_sides() -> None:
    opaque = Seen(date(2025, 2, 10), Stage.OPAQUE, 2)
    first, second = of_history(read([shed("2025-01-01"), opaque, shed("2025-04-01")], TODAY))
    assert (first.low_days, first.high_days) == (44, 48)
    assert (second.low_days, second.high_days) == (42, 46)
    assert second.started is None


def test_the_last_shed_of_a_slough_eater_is_known_between_two_days() -> None:
    history = read([Seen(date(2025, 2, 10), Stage.CLEAR)], TODAY, eats_slough=True)
    assert last_shed(history) == (date(2025, 2, 11), date(2025, 2, 14))


def test_without_a_shed_there_is_nothing() -> None:
    history = read([], TODAY)
    assert of_history(history) == ()
    assert last_shed(history) is None


def test_an_interval_twice_as_long_as_the_others_is_pointed_out_and_none_is_dropped() -> None:
    intervals = exactly([40, 42, 81, 39, 41])
    assert [i.low_days for i in perhaps_missed(intervals)] == [81]
    assert [(i.low_days, i.high_days) for i in loosened(intervals)] == [
        (40, 40),
        (42, 42),
        (1, 81),
        (39, 39),
        (41, 41),
    ]


def test_few_or_even_intervals_are_not_pointed_out() -> None:
    assert perhaps_missed(exactly([40, 85])) == ()
    assert perhaps_missed(exactly([40, 45, 50, 60, 70])) == ()


@pytest.mark.parametrize("days", [0, -3, 5000, math.nan, math.inf])
def test_an_interval_that_cannot_be_is_refused(days: float) -> None:
    with pytest.raises(BadInput, match="cannot be"):
        exactly([days])


def test_bounds_that_run_backwards_are_refused() -> None:
    with pytest.raises(BadInput, match="40 to 30 days runs backwards"):
        between(40, 30)


def test_an_adults_longer_intervals_are_not_taken_for_missed_sheds() -> None:
    """Thirty days as a youngster, sixty as an adult: only the doubled one in between is doubted."""
    growing = exactly([30, 31, 29, 30, 32, 30, 58, 60, 61, 59, 60, 62])
    assert perhaps_missed(growing) == ()
    gap = exactly([30, 31, 29, 61, 32, 30, 31])
    assert [i.low_days for i in perhaps_missed(gap)] == [61.0]


@given(st.lists(st.integers(20, 120), min_size=4, max_size=12))
@example([20, 20, 20, 37])
def test_a_missed_shed_is_seen_by_the_upper_median_of_the_six_intervals_around(
    days: list[int],
) -> None:
    exact = exactly(days)
    far = []
    for place, one in enumerate(days):
        around = sorted(days[max(0, place - 3) : place] + days[place + 1 : place + 4])
        if one >= 1.8 * around[len(around) // 2]:
            far.append(exact[place])
    assert perhaps_missed(exact) == tuple(far)
