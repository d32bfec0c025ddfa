"""The temperatures an animal lives at."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from warmside.core.values.errors import BadInput
from warmside.plugins.feeding.care.species import species_rows
from warmside.plugins.feeding.care.temperatures import own_day

PYTHON = species_rows()["Python regius"]


def test_both_sides_make_a_day() -> None:
    warm, cool = own_day(PYTHON, [30.0, 30.5], [24.0], 10) or ()
    assert (warm.hours, warm.low_c, warm.high_c) == (10, 30.0, 30.5)
    assert (cool.hours, cool.low_c, cool.high_c) == (14, 24.0, 24.0)


def test_without_hours_the_species_day_holds() -> None:
    warm, _ = own_day(PYTHON, [30.0], [24.0]) or ()
    assert warm.hours == PYTHON.day_hours


def test_one_side_alone_says_nothing() -> None:
    assert own_day(PYTHON, [30.0], []) is None and own_day(PYTHON, [], [24.0]) is None


def test_a_basking_spot_is_no_body_temperature() -> None:
    warm, _ = own_day(PYTHON, [55.0], [24.0]) or ()
    assert warm.high_c == PYTHON.day_c[1]


def test_hours_beyond_a_day_are_refused() -> None:
    with pytest.raises(BadInput, match="give 0 to 24"):
        own_day(PYTHON, [30.0], [24.0], 25)


@given(st.lists(st.floats(-10, 80), min_size=1), st.lists(st.floats(-10, 60), min_size=1))
def test_any_reading_gives_temperatures_that_can_be_reckoned_with(
    warm: list[float], cool: list[float]
) -> None:
    for spell in own_day(PYTHON, warm, cool) or ():
        assert 0 <= spell.low_c <= spell.high_c <= PYTHON.day_c[1]
