"""Doses on the wall's clock, and which record stands for which."""

from __future__ import annotations

from datetime import date, datetime, time, timedelta
from zoneinfo import ZoneInfo

import pytest
from dateutil import rrule, tz
from hypothesis import given
from hypothesis import strategies as st
from msgspec.structs import replace

from warmside.plugins.health.courses.order import GIVEN, MISSED, REFUSED, STOPPED, Dose, Order
from warmside.plugins.health.courses.schedule import (
    course,
    due_on,
    on_the_wall,
    planned,
    unrecorded,
)

DAY = date(2026, 3, 5)
ORDER = Order(1, "medicine A", "0.1 ml", 12, DAY, time(8), count=14)
FAR = DAY + timedelta(60)


def at(day: int, clock: str) -> datetime:
    return datetime.combine(DAY + timedelta(day), time.fromisoformat(clock))


def dose(number: int, when: datetime, outcome: str = GIVEN) -> Dose:
    return Dose(number, when.date(), outcome, when)


@pytest.mark.parametrize(("clock", "slots"), [("13:59", 1), ("14:00", 2)])
def test_a_dose_sooner_than_half_the_interval_is_one_beyond_the_order(
    clock: str, slots: int
) -> None:
    """By the order of every 12 hours from the last dose, 6 hours after it is the earliest next."""
    order = replace(ORDER, from_last=True)
    found = course(order, [dose(1, at(0, "08:00")), dose(2, at(0, clock))], FAR, None)
    assert len([s for s in found.slots if s.dose]) == slots
    assert [d.event for d in found.extra] == [2] * (2 - slots)


@pytest.mark.parametrize(
    ("zone", "start"),
    [
        ("Europe/Vienna", date(2026, 3, 27)),  # forward on 29 March
        ("Europe/Vienna", date(2026, 10, 23)),  # back on 25 October
        ("America/New_York", date(2026, 3, 6)),
        ("America/New_York", date(2026, 10, 30)),
        ("Australia/Lord_Howe", date(2026, 10, 2)),  # half an hour forward on 4 October
    ],
)
@pytest.mark.parametrize(
    ("hours", "clock"), [(6, time(2, 15)), (8, time(1, 30)), (24, time(2, 30))]
)
def test_recurrence_across_a_clock_change_is_that_of_dateutil(
    zone: str, start: date, hours: int, clock: time
) -> None:
    """Held against dateutil: rrule.HOURLY on naive times, tz.resolve_imaginary for the gap."""
    order = replace(ORDER, hours=hours, start=start, clock=clock, count=20)
    mine = [on_the_wall(at, ZoneInfo(zone)) for at in planned(order, start + timedelta(60))]
    rule = rrule.rrule(rrule.HOURLY, interval=hours, count=20, dtstart=order.first)
    home = tz.gettz(zone)
    theirs = [tz.resolve_imaginary(t.replace(tzinfo=home)).replace(tzinfo=None) for t in rule]
    assert mine == theirs
    assert len(set(mine)) == 20, "the hour that comes twice gives one dose"


def test_doses_stand_for_the_planned_one_that_they_are_nearest_to() -> None:
    doses = [dose(2, at(0, "08:20")), dose(3, at(1, "06:30")), dose(4, at(0, "21:00"))]
    found = course(ORDER, doses, FAR, None)
    assert [s.dose.event if s.dose else 0 for s in found.slots[:4]] == [2, 4, 3, 0]
    assert found.extra == ()


def test_a_second_dose_for_one_time_is_beyond_the_order() -> None:
    found = course(ORDER, [dose(2, at(0, "08:20")), dose(3, at(0, "09:00"))], FAR, None)
    assert [d.event for d in found.extra] == [3]


def test_a_dose_of_which_only_the_day_is_known_takes_the_first_free_time_of_the_day() -> None:
    doses = [Dose(2, DAY), Dose(3, DAY), Dose(4, DAY)]
    found = course(ORDER, doses, FAR, None)
    assert [s.dose.event for s in found.slots if s.dose] == [2, 3]
    assert [d.event for d in found.extra] == [4]


def test_by_the_plan_a_late_dose_moves_nothing_and_from_the_last_dose_it_does() -> None:
    late = [dose(2, at(0, "11:00"))]
    by_plan = course(ORDER, late, FAR, None)
    assert by_plan.slots[1].planned == at(0, "20:00")
    from_last = course(replace(ORDER, from_last=True), late, FAR, None)
    assert from_last.slots[1].planned == at(0, "23:00")


def test_from_the_last_dose_a_missed_one_counts_from_its_own_time_and_keeps_the_number() -> None:
    missed = replace(dose(2, at(0, "19:00"), MISSED), planned=at(0, "08:00"))
    found = course(replace(ORDER, from_last=True), [missed], FAR, None)
    assert found.slots[1].planned == at(0, "20:00")
    assert len(found.slots) == 14


def test_after_a_missed_dose_the_next_counts_from_the_time_that_was_missed() -> None:
    order = replace(ORDER, from_last=True)
    missed = Dose(2, DAY, MISSED, None, at(0, "20:00"))
    late = course(order, [dose(1, at(0, "09:30")), missed], FAR, None)
    assert late.slots[2].planned == at(1, "08:00")
    assert [s.dose.event for s in late.slots if s.dose] == [1, 2] and late.extra == ()


def test_nothing_is_due_after_a_vet_stopped_it_or_ordered_it_anew() -> None:
    stopped = course(ORDER, [dose(2, at(1, "12:00"), STOPPED)], FAR, None)
    assert [s.planned for s in stopped.slots] == [at(0, "08:00"), at(0, "20:00"), at(1, "08:00")]
    assert stopped.runs(DAY) and not stopped.runs(DAY + timedelta(1))
    sometime = course(ORDER, [Dose(2, DAY + timedelta(1), STOPPED)], FAR, None)
    assert [s.planned for s in sometime.slots] == [at(0, "08:00"), at(0, "20:00")]
    anew = course(ORDER, [], FAR, DAY + timedelta(1))
    assert (len(anew.slots), anew.last_day) == (2, DAY)


def test_the_day_asks_for_its_doses_and_days_before_for_their_record() -> None:
    found = course(ORDER, [dose(2, at(0, "08:00"))], FAR, None)
    tomorrow = DAY + timedelta(1)
    assert [s.planned for s in due_on(found, tomorrow)] == [at(1, "08:00"), at(1, "20:00")]
    assert [s.planned for s in unrecorded(found, tomorrow)] == [at(0, "20:00")]


def test_an_order_by_days_is_due_once_on_its_day() -> None:
    order = replace(ORDER, hours=72, clock=None, count=None, until=DAY + timedelta(7))
    found = course(order, [Dose(2, DAY, GIVEN, at(0, "23:50"))], FAR, None)
    assert [(s.planned.date() - DAY).days for s in found.slots] == [0, 3, 6]
    assert found.slots[0].dose is not None
    assert due_on(found, DAY + timedelta(3)) and not due_on(found, DAY + timedelta(4))


@given(
    st.lists(
        st.tuples(st.integers(0, 7 * 24 * 4), st.sampled_from([GIVEN, MISSED, REFUSED])),
        max_size=20,
    ),
    st.booleans(),
)
def test_every_record_is_counted_once_and_no_slot_holds_two(
    tried: list[tuple[int, str]], from_last: bool
) -> None:
    doses = [
        dose(n, ORDER.first + timedelta(minutes=15 * quarter), outcome)
        for n, (quarter, outcome) in enumerate(tried)
    ]
    found = course(replace(ORDER, from_last=from_last), doses, FAR, None)
    assert sorted(d.event for d in found.doses) == list(range(len(tried)))
    assert len(found.slots) <= 14
    times = [s.planned for s in found.slots]
    assert times == sorted(times)
