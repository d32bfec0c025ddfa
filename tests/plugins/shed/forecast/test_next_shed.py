"""The next shed as dates; overdue only where the forecast says so."""

from __future__ import annotations

from datetime import date, timedelta

import pytest
from hypothesis import example, given, settings
from hypothesis import strategies as st

from warmside.api import BadInput
from warmside.plugins.shed.cycles.cycle import History, Seen, Stage, read
from warmside.plugins.shed.forecast.forecast import forecast, on_days
from warmside.plugins.shed.forecast.intervals import exactly
from warmside.plugins.shed.forecast.next_shed import next_shed
from warmside.plugins.shed.forecast.outlook import SAID_DAYS, outlook
from warmside.plugins.shed.forecast.predictive import prior_for

START = date(2024, 1, 1)
ADULT = prior_for("adult")


def history(*gaps: int, on: int = 0) -> tuple[History, date]:
    """Sheds so many days apart, read so many days after the last."""
    days = [START]
    for gap in gaps:
        days.append(days[-1] + timedelta(days=gap))
    today = days[-1] + timedelta(days=on)
    return read([Seen(d, Stage.SHED, n) for n, d in enumerate(days, 1)], today), today


def test_without_a_shed_there_is_nothing_to_say() -> None:
    assert next_shed(History(), START, ADULT) is None
    assert outlook(History(), ADULT) is None


def test_the_dates_are_the_days_counted_from_the_last_shed() -> None:
    told, today = history(34, 41, 38, 40, on=20)
    found = next_shed(told, today, ADULT)
    assert found is not None
    plain = forecast(exactly([34, 41, 38, 40]), 20, ADULT)
    assert found.forecast.range_90 == plain.range_90
    last = today - timedelta(days=20)
    assert found.last == (last, last)
    assert found.dates_50 == on_days(last, *plain.range_50)
    assert found.dates_90 == on_days(last, *plain.range_90)


def test_a_shed_that_was_not_recorded_widens_the_dates_to_both_ends() -> None:
    days = [START + timedelta(days=d) for d in (0, 40, 80)]
    seen = [Seen(d, Stage.SHED, n) for n, d in enumerate(days, 1)]
    seen.append(Seen(START + timedelta(days=115), Stage.OPAQUE, 9))
    today = START + timedelta(days=140)
    found = next_shed(read(seen, today), today, ADULT)
    assert found is not None
    first, last = found.last
    assert first < last
    assert found.forecast.elapsed_days == (today - last).days
    assert found.dates_90[0] <= on_days(last, *found.forecast.range_90)[0]
    assert found.dates_90[1] == on_days(last, *found.forecast.range_90)[1]


def test_without_a_prior_too_few_sheds_are_bad_input() -> None:
    told, today = history(40)
    with pytest.raises(BadInput, match="needs 2 intervals"):
        next_shed(told, today, None)


def test_an_interval_near_twice_the_others_does_not_stretch_the_forecast() -> None:
    told, today = history(40, 41, 39, 80, 40, 42)
    found = next_shed(told, today, ADULT)
    assert found is not None
    assert found.forecast.high_90_days < 65


def test_overdue_comes_with_the_days() -> None:
    gaps = (40, 41, 39, 42, 40)
    for on, late in ((41, False), (90, True)):
        told, today = history(*gaps, on=on)
        ahead = outlook(told, ADULT)
        assert ahead is not None
        assert (ahead.overdue(today) is not None) == late


@settings(max_examples=10, deadline=None)  # of 500 days each
@given(st.lists(st.integers(14, 120), min_size=1, max_size=7))
def test_overdue_is_new_on_its_first_days_alone(gaps: list[int]) -> None:
    told, today = history(*gaps, on=0)
    ahead = outlook(told, ADULT)
    assert ahead is not None
    days = [today + timedelta(days=n) for n in range(500)]
    late = [day for day in days if ahead.overdue(day)]
    assert [day for day in days if ahead.newly_overdue(day)] == late[:SAID_DAYS]


@settings(max_examples=60, deadline=None)
@given(st.lists(st.integers(14, 120), max_size=7), st.integers(0, 300))
@example([15, 14, 15, 16, 15, 14, 15], 40)
def test_the_quick_look_never_passes_over_an_overdue_animal(gaps: list[int], on: int) -> None:
    told, today = history(*gaps, on=on)
    whole = next_shed(told, today, ADULT)
    assert whole is not None
    ahead = outlook(told, ADULT)
    assert ahead is not None
    assert ahead.overdue(today) == (whole.forecast if whole.forecast.overdue else None)


@settings(max_examples=60, deadline=None)
@given(st.lists(st.integers(14, 120), max_size=9), st.integers(0, 300), st.booleans())
@example([40, 44, 48, 52, 56, 60, 64, 68, 71], 30, False)
def test_the_days_to_the_slough_are_those_of_half_of_the_next_sheds(
    gaps: list[int], on: int, last_is_opaque: bool
) -> None:
    told, today = history(*gaps, on=on)
    if last_is_opaque and on > 60:  # a shed that was not recorded: its days are a range
        opaque = Seen(today - timedelta(days=on - 14), Stage.OPAQUE, 99)
        told = read([*(s for c in told.cycles for s in c.seen), opaque], today)
    whole = next_shed(told, today, ADULT, START - timedelta(days=200))
    ahead = outlook(told, ADULT, START - timedelta(days=200))
    assert whole is not None
    assert ahead is not None
    quick = ahead.days_to_slough(today)
    assert (quick.low, quick.high) == tuple(max(0, (d - today).days) for d in whole.dates_50)
    assert quick.basis == whole.forecast.basis
