"""Which results are awaited, and when droppings are looked at again."""

from __future__ import annotations

from datetime import date, timedelta

import pytest
from hypothesis import given
from hypothesis import strategies as st

from warmside.plugins.health.samples.sample import Sample, awaited, is_of_faeces
from warmside.plugins.health.samples.yearly import faecal_check

DAY = date(2026, 3, 1)
YEAR = timedelta(days=365)


def on(days: int) -> date:
    return DAY + timedelta(days)


FAECES = Sample(1, DAY, "faeces", lab="Laboratory A", ref="17")
SWAB = Sample(2, on(1), "swab")


def result(number: int, what: str, ref: str = "") -> Sample:
    return Sample(number, on(number), what, is_result=True, ref=ref, says="nothing found")


def test_a_result_is_that_of_its_number_else_of_what_it_is_of() -> None:
    assert awaited([FAECES, SWAB]) == [FAECES, SWAB]
    assert awaited([FAECES, SWAB, result(3, "droppings", "17")]) == [SWAB]
    assert awaited([FAECES, SWAB, result(3, "Swab")]) == [FAECES]
    assert awaited([FAECES, SWAB, result(3, "faeces")]) == [SWAB]


def test_a_result_of_another_number_or_of_something_else_settles_none() -> None:
    assert awaited([FAECES, result(3, "faeces", "18")]) == [FAECES]
    assert awaited([FAECES, result(3, "blood")]) == [FAECES]


@given(st.lists(st.booleans(), max_size=10))
def test_of_samples_alike_as_many_are_awaited_as_have_no_result(results: list[bool]) -> None:
    said = [Sample(n, on(n), "swab", is_result=r) for n, r in enumerate(results)]
    left = 0
    for is_result in results:
        left = max(0, left - 1) if is_result else left + 1
    assert len(awaited(said)) == left


def test_it_is_asked_for_when_it_was_promised_else_after_two_weeks() -> None:
    assert Sample(1, DAY, "swab", expected=on(3)).asked_from == on(3)
    assert SWAB.asked_from == on(15)
    assert FAECES.words == "faeces, Laboratory A, number 17"


@pytest.mark.parametrize("what", ["faeces", "Feces, pooled", "fresh droppings", "stool", "fæces"])
def test_droppings_are_known_by_the_words_that_keepers_use(what: str) -> None:
    assert is_of_faeces(Sample(1, DAY, what))


@pytest.mark.parametrize("what", ["swab", "blood", "body", "skin"])
def test_other_samples_are_none_of_droppings(what: str) -> None:
    assert not is_of_faeces(Sample(1, DAY, what))


def test_the_next_check_is_a_year_after_the_last_one() -> None:
    check = faecal_check([FAECES, SWAB, result(40, "faeces")], DAY - YEAR, DAY - YEAR, YEAR)
    assert (check.due, check.events) == (DAY + YEAR, (1,))


def test_without_one_on_record_it_counts_from_coming_or_from_being_entered() -> None:
    bought = faecal_check([SWAB], DAY, DAY, YEAR)
    assert bought.due == DAY + YEAR and "it came" in bought.why
    entered_late = faecal_check([], DAY - 10 * YEAR, DAY, YEAR)
    assert entered_late.due == DAY + YEAR and "it was entered" in entered_late.why
