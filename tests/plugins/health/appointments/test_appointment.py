"""Which appointments are still to come."""

from __future__ import annotations

from datetime import date, time, timedelta

from hypothesis import given
from hypothesis import strategies as st

from warmside.plugins.health.appointments.appointment import (
    Appointment,
    Visit,
    pending,
    stands_for,
)
from warmside.plugins.health.appointments.vaccination import Vaccination, again

DAY = date(2026, 3, 1)


def on(days: int) -> date:
    return DAY + timedelta(days)


MADE = Appointment(1, DAY, on(10), time(9, 30), "Dr. Reed", "the eye")


def test_it_is_said_as_it_was_agreed() -> None:
    assert MADE.words == "vet appointment at 09:30, Dr. Reed: the eye"
    assert Appointment(1, DAY, on(1)).words == "vet appointment"


def test_it_stands_until_it_is_cancelled_or_a_vet_saw_the_animal() -> None:
    assert pending([MADE], []) == [MADE]
    assert pending([MADE, Appointment(2, on(1), on(10), cancelled=True)], []) == []
    assert pending([MADE], [Visit(2, on(10))]) == pending([MADE], [Visit(2, on(12))]) == []


def test_a_visit_long_before_its_day_is_another_one_and_one_shortly_before_is_it() -> None:
    assert pending([MADE], [Visit(2, on(3))]) == [MADE]
    assert pending([MADE], [Visit(2, on(8))]) == []
    assert pending([Appointment(3, on(8), on(10))], [Visit(2, on(8))]), "made at that visit"


def test_a_newer_word_on_a_day_takes_the_place_of_the_older() -> None:
    again_ = Appointment(2, on(1), on(10), time(11))
    off, made = Appointment(3, on(2), on(10), cancelled=True), Appointment(4, on(3), on(10))
    assert pending([MADE, again_], []) == [again_]
    assert pending([MADE, off, made], []) == [made]


@given(st.lists(st.integers(0, 20), max_size=5), st.lists(st.integers(0, 20), max_size=5))
def test_a_visit_adds_none_and_all_are_in_their_order(days: list[int], seen: list[int]) -> None:
    said = [Appointment(n, DAY, on(d)) for n, d in enumerate(days)]
    visits = [Visit(50 + n, on(d)) for n, d in enumerate(seen)]
    left = pending(said, visits)
    assert set(left) <= set(pending(said, []))
    assert [a.due for a in left] == sorted(a.due for a in left)
    assert all(a.due > max((v.day for v in visits), default=DAY - timedelta(1)) for a in left)


def test_an_appointment_about_its_day_is_the_recheck_and_one_before_or_long_after_not() -> None:
    assert stands_for([MADE], on(10)) and stands_for([MADE], on(1))
    assert not stands_for([MADE], on(11)) and not stands_for([MADE], DAY - timedelta(5))


def test_of_each_vaccine_the_last_says_whether_it_is_given_again() -> None:
    first = Vaccination(1, DAY, "vaccine Q", again=on(30))
    second = Vaccination(2, on(30), "Vaccine  q")
    other = Vaccination(3, on(2), "vaccine R", again=on(9))
    assert again([first, other]) == [first, other]
    assert again([second, first, other]) == [other], "the vet named no further day"
