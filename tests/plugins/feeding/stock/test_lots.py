"""Prey in the freezer."""

from __future__ import annotations

from datetime import date, timedelta

import pytest
from hypothesis import given
from hypothesis import strategies as st

from warmside.core.values.errors import BadInput
from warmside.core.values.quantities import Display
from warmside.plugins.feeding.care.rules import rules_with
from warmside.plugins.feeding.stock.lots import Lot, ages, check_lot, on_hand, shortages, take

DAY = date(2026, 5, 1)
RULES = rules_with({}, Display.METRIC)


def lot(id: int, count: int, days: int = 10, prey: str = "mouse-adult", price: float = 1) -> Lot:
    return Lot(id, prey, count, DAY - timedelta(days=days), price=price)


def test_the_oldest_lot_is_taken_first() -> None:
    taken = take([lot(1, 5, 10, price=2), lot(2, 3, 90)], "adult mouse", 4)
    assert taken.parts == ((2, 3), (1, 1)) and taken.missing == 0 and taken.cost == 5


def test_other_classes_are_left_alone_and_what_is_missing_is_told() -> None:
    taken = take([lot(1, 2), lot(2, 9, prey="rat-pup")], "mouse-adult", 4)
    assert taken.parts == ((1, 2),) and taken.missing == 2 and taken.cost is None


def test_a_lot_without_a_price_leaves_the_cost_open() -> None:
    assert take([Lot(1, "mouse-adult", 5, DAY)], "mouse-adult", 1).cost is None


@given(st.lists(st.integers(0, 20), max_size=6), st.integers(0, 80))
def test_taken_and_missing_make_up_what_was_wanted(counts: list[int], wanted: int) -> None:
    lots = [lot(i, n, days=i) for i, n in enumerate(counts)]
    taken = take(lots, "mouse-adult", wanted)
    assert sum(n for _, n in taken.parts) + taken.missing == wanted
    assert all(0 < n <= counts[i] for i, n in taken.parts)
    assert not taken.missing or sum(n for _, n in taken.parts) == sum(counts)


def test_stock_is_counted_by_class() -> None:
    assert on_hand([lot(1, 2), lot(2, 3), lot(3, 4, prey="rat-pup")]) == {
        "mouse-adult": 5,
        "rat-pup": 4,
    }


def test_a_shortage_is_found() -> None:
    (short,) = shortages([lot(1, 2)], {"mouse-adult": 5}, 2)
    assert short.code == "short" and "2 × adult mouse in stock, 5 planned" in short.words
    assert shortages([lot(1, 5)], {"mouse-adult": 5}, 2) == ()


def test_old_stock_is_found_oldest_first() -> None:
    found = ages([lot(1, 2, 181), lot(2, 1, 400), lot(3, 9, 180), lot(4, 0, 900)], DAY, RULES)
    assert [f.words.split(" ×")[0] for f in found] == ["1", "2"]


@pytest.mark.parametrize(
    ("bad", "says"),
    [
        (Lot(1, "mouse-adult", -1, DAY), "give 0 or more"),
        (Lot(1, "mouse-adult", 1, DAY, each_g=0), "weigh one"),
        (Lot(1, "mouse-adult", 1, DAY, each_g=9000), "weigh one"),
        (Lot(1, "mouse-adult", 1, DAY, price=-2), "negative"),
        (Lot(1, "mouse-adlt", 1, DAY), "did you mean mouse-adult"),
    ],
)
def test_lots_that_cannot_be_are_refused(bad: Lot, says: str) -> None:
    with pytest.raises(BadInput, match=says):
        check_lot(bad)


def test_a_negative_taking_is_refused() -> None:
    with pytest.raises(BadInput, match="cannot take -1"):
        take([], "mouse-adult", -1)


def test_a_lot_is_kept_under_the_code_of_its_class() -> None:
    assert check_lot(Lot(1, "Adult mouse", 1, DAY)).prey == "mouse-adult"
