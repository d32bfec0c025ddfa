"""Stretches from marks, ages as far as they are known, and how often to weigh."""

from __future__ import annotations

from datetime import date
from math import inf

import pytest
from hypothesis import given
from hypothesis import strategies as st

from warmside.core.values.moments import parse_partial_date
from warmside.plugins.weight.condition.families import family_of
from warmside.plugins.weight.course.ages import hatched_day
from warmside.plugins.weight.course.spans import spans


@pytest.mark.parametrize(
    ("marks", "found"),
    [
        ([], ()),
        ([(5, True), (9, False)], ((5, 9),)),
        ([(5, True), (7, True), (9, False), (12, True)], ((5, 9), (12, inf))),
        ([(9, False), (12, False)], ((-inf, 9),)),
    ],
)
def test_stretches(marks: list[tuple[float, bool]], found: tuple[tuple[float, float], ...]) -> None:
    """An end without a begin counts only where the record begins with it."""
    assert spans(marks) == found


@given(st.lists(st.tuples(st.floats(0, 1e6), st.booleans())).map(sorted))
def test_stretches_never_overlap(marks: list[tuple[float, bool]]) -> None:
    """Whatever was typed: in order, and at most the last one open."""
    found = spans(marks)
    ends = [x for span in found for x in span]
    assert ends == sorted(ends)
    assert all(end < inf for _, end in found[:-1])


def test_a_hatching_date_must_be_known_to_the_month() -> None:
    """For a centile; its middle is taken."""
    assert hatched_day(parse_partial_date("2025-06-10")) == date(2025, 6, 10).toordinal()
    middle = hatched_day(parse_partial_date("2025-06"))
    assert middle is not None and date.fromordinal(int(middle)) == date(2025, 6, 15)
    assert hatched_day(parse_partial_date("2025")) is None
    assert hatched_day(None) is None


def test_the_family_is_chosen_by_genus_before_group() -> None:
    """A gecko of another family than most; nothing for a tortoise."""
    assert family_of("Eublepharis macularius", "gecko") == "Eublepharidae"
    assert family_of("Gekko gecko", "gecko") == "Gekkonidae"
    assert family_of("Testudo hermanni", "tortoise") is None
