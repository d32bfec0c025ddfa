"""Numbers with their nouns."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from warmside.core.values.counts import counted, every_days


@pytest.mark.parametrize(
    ("number", "told"),
    [(0, "0 copies"), (1, "1 copy"), (1.0, "1 copy"), (1.5, "1.5 copies"), (3, "3 copies")],
)
def test_only_one_is_singular(number: float, told: str) -> None:
    assert counted(number, "copy", "copies") == told


@given(st.integers(2, 10**9))
def test_a_count_is_said_to_its_last_digit(number: int) -> None:
    assert counted(number, "row") == f"{number} rows"


def test_an_interval_of_one_day_is_every_day() -> None:
    assert (every_days(1), every_days(7.0), every_days(3)) == (
        "every day",
        "every 7 days",
        "every 3 days",
    )
