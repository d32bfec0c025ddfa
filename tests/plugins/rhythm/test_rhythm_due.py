"""When something is due again.

Source of the outside check: RFC 5545, a rule of recurrence DAILY with an INTERVAL, as worked out
by dateutil's `rrule`.
"""

from __future__ import annotations

from datetime import date, datetime, timedelta

from dateutil.rrule import DAILY, rrule
from hypothesis import given
from hypothesis import strategies as st

from warmside.api import About
from warmside.plugins.rhythm.intervals.next_time import ALL, Done, Rhythm, applying, due, due_day

EMBER, MOSS, SHELF = About(animal_id=1), About(animal_id=2), About(enclosure_id=1)
SINCE, ON = date(2026, 1, 5), date(2026, 3, 5)
days_of_years = st.dates(date(1900, 1, 1), date(2100, 1, 1))


@given(st.integers(1, 3650), days_of_years)
def test_due_is_the_next_day_of_a_daily_recurrence(days: int, last: date) -> None:
    following = rrule(DAILY, interval=days, dtstart=datetime(last.year, last.month, last.day))[1]
    assert due_day(days, Done(EMBER, SINCE, last)) == following.date()


def test_what_was_never_done_for_an_animal_is_due_at_once() -> None:
    assert due_day(30, Done(EMBER, SINCE)) == SINCE


def test_a_fresh_enclosure_counts_as_done_on_its_first_day() -> None:
    assert due_day(28, Done(SHELF, SINCE, fresh=True)) == date(2026, 2, 2)


def test_done_since_counts_from_then_on_in_a_fresh_enclosure_too() -> None:
    assert due_day(28, Done(SHELF, SINCE, date(2026, 2, 10), 7, fresh=True)) == date(2026, 3, 10)


@given(st.permutations([Rhythm("weighed", 30), Rhythm("weighed", 7, EMBER)]))
def test_an_animals_own_rhythm_comes_before_the_general_one(rhythms: list[Rhythm]) -> None:
    assert applying(rhythms, "weighed", EMBER) == (Rhythm("weighed", 7, EMBER),)
    assert applying(rhythms, "weighed", MOSS) == (Rhythm("weighed", 30),)


def test_an_own_rhythm_may_also_be_the_longer_one() -> None:
    rhythms = [Rhythm("weighed", 30), Rhythm("weighed", 90, EMBER)]
    assert list(due(rhythms, "weighed", [Done(EMBER, SINCE, date(2026, 1, 20))], ON)) == []


def test_rhythms_of_other_kinds_and_subjects_do_not_apply() -> None:
    rhythms = [Rhythm("cleaned", 28), Rhythm("weighed", 7, MOSS), Rhythm("weighed", 9, SHELF)]
    assert applying(rhythms, "weighed", EMBER) == ()


def test_an_animal_and_an_enclosure_of_one_number_are_told_apart() -> None:
    rhythms = [Rhythm("cleaned", 7, About(enclosure_id=1)), Rhythm("cleaned", 9, EMBER)]
    assert applying(rhythms, "cleaned", SHELF) == (rhythms[0],)


@given(st.integers(1, 60), st.integers(0, 60))
def test_it_is_due_from_its_day_on_and_not_before(days: int, ago: int) -> None:
    last = ON - timedelta(days=ago)
    found = list(due([Rhythm("weighed", days, ALL)], "weighed", [Done(EMBER, SINCE, last)], ON))
    assert bool(found) is (ago >= days)
    assert all(day == last + timedelta(days=days) for _, _, day in found)


def test_a_spot_and_a_full_rhythm_stand_side_by_side() -> None:
    general = [Rhythm("cleaned", 7, ALL, "spot"), Rhythm("cleaned", 28, ALL, "full")]
    assert applying(general, "cleaned", SHELF) == tuple(general)
    own = Rhythm("cleaned", 3, SHELF, "spot")
    assert applying([own, *general], "cleaned", SHELF) == (own, general[1])


def test_an_own_rhythm_of_before_extents_stands_alone_as_it_did() -> None:
    own = Rhythm("cleaned", 28, SHELF)
    assert applying([Rhythm("cleaned", 7), own], "cleaned", SHELF) == (own,)


def test_a_full_clean_puts_off_both_rhythms_and_a_spot_clean_its_own() -> None:
    both = [Rhythm("cleaned", 7, ALL, "spot"), Rhythm("cleaned", 28, ALL, "full")]
    long_ago, lately = date(2026, 1, 6), date(2026, 3, 1)
    spot = Done(SHELF, SINCE, lately, 2, full=(long_ago, 1))
    full = Done(SHELF, SINCE, lately, 2, full=(lately, 2))
    assert [(r.extent, day) for r, _, day in due(both, "cleaned", [spot], ON)] == [
        ("full", date(2026, 2, 3))
    ]
    assert list(due(both, "cleaned", [full], ON)) == []
