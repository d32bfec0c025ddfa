"""How many young fall to each side."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from warmside.plugins.lineage.loans.falling import Fall, fall, falls
from warmside.plugins.lineage.loans.loan import ODD, OVER, Agreement

HALF = Agreement(ours_percent=50.0, odd=ODD["them"], over=OVER["each clutch"])
TOGETHER = Agreement(ours_percent=50.0, odd=ODD["them"], over=OVER["all clutches"])


@pytest.mark.parametrize(
    ("young", "agreed", "expected"),
    [
        (6, HALF, Fall(3, 3)),
        (7, HALF, Fall(3, 4)),
        (7, Agreement(ours_percent=50.0, odd=ODD["us"]), Fall(4, 3)),
        (7, Agreement(ours_percent=50.0), Fall(3, 3, 1)),
        (7, Agreement(), Fall(0, 0, 7)),
        (10, Agreement(ours_percent=0.0), Fall(0, 10)),
        (10, Agreement(ours_percent=100.0), Fall(10, 0)),
        (10, Agreement(ours_percent=33.0, odd=ODD["us"]), Fall(4, 6)),
        (10, Agreement(ours_percent=29.0), Fall(2, 7, 1)),  # 2.9 and 7.1: in floats 2.9000000000004
        (0, HALF, Fall(0, 0)),
    ],
)
def test_each_side_has_the_whole_young_of_its_share(
    young: int, agreed: Agreement, expected: Fall
) -> None:
    assert fall(young, agreed) == expected


@given(st.integers(0, 200), st.integers(0, 1000), st.sampled_from([None, *ODD.values()]))
def test_no_young_is_lost_and_none_falls_to_both(young: int, tenths: int, odd: str | None) -> None:
    found = fall(young, Agreement(ours_percent=tenths / 10, odd=odd))
    assert found.young == young
    assert found.open <= (1 if odd is None else 0)
    assert abs(found.ours - young * tenths / 1000) < 1 + 1e-9


def test_two_odd_clutches_shared_together_are_even() -> None:
    """7 and 5: 3 and 2 are ours where each is shared apart, 6 of 12 where both are together."""
    assert falls([7, 5], HALF) == ([Fall(3, 4), Fall(2, 3)], Fall(5, 7))
    assert falls([7, 5], TOGETHER) == ([None, None], Fall(6, 6))


def test_without_young_nothing_falls_to_anybody() -> None:
    assert falls([], HALF) == ([], Fall(0, 0))
    assert falls([], TOGETHER) == ([], Fall(0, 0))
