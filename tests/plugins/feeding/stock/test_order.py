"""What to buy."""

from __future__ import annotations

from collections import Counter
from datetime import date
from itertools import product

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from warmside.core.values.errors import BadInput
from warmside.plugins.feeding.planning.forecast import Forecast, PlannedMeal
from warmside.plugins.feeding.stock.lots import Lot
from warmside.plugins.feeding.stock.order import Pack, cheapest, check_pack, order, planned_counts

DAY = date(2026, 5, 1)
CODES = ("mouse-pinky", "mouse-adult", "rat-small")
meals = st.builds(PlannedMeal, st.just(DAY), st.sampled_from(CODES), st.integers(1, 3))
animals = st.lists(
    st.builds(
        Forecast, st.text("ab", max_size=3), st.lists(meals, max_size=8).map(tuple), st.just("")
    ),
    max_size=5,
)
lots = st.lists(
    st.builds(Lot, st.integers(1, 99), st.sampled_from(CODES), st.integers(0, 9), st.just(DAY)),
    max_size=4,
)
packs = st.lists(
    st.builds(
        Pack, st.sampled_from(CODES), st.integers(1, 12), st.one_of(st.none(), st.integers(0, 30))
    ),
    max_size=5,
)


@given(animals, lots, packs)
def test_the_order_is_the_planned_meals_less_the_stock_rounded_up_to_packs(
    animals: list[Forecast], lots: list[Lot], packs: list[Pack]
) -> None:
    found = order(animals, lots, packs)
    planned = Counter[str]()
    for animal in animals:
        for meal in animal.meals:
            planned[meal.prey] += meal.count
    assert {line.prey: line.planned for line in found.lines} == dict(planned)
    for line in found.lines:
        stock = sum(lot.count for lot in lots if lot.prey == line.prey)
        sizes = [p.size for p in packs if p.prey == line.prey] or [1]
        assert line.short == max(0, planned[line.prey] - stock)
        assert line.short <= line.bought < line.short + max(sizes)
        assert line.bought == sum(pack.size * n for pack, n in line.packs)


@given(
    st.integers(0, 20),
    st.lists(st.tuples(st.integers(1, 8), st.integers(0, 20)), min_size=1, max_size=3),
)
@settings(max_examples=60, deadline=None)
def test_no_other_packs_are_cheaper(short: int, offered: list[tuple[int, int]]) -> None:
    packs = [Pack("mouse-adult", size, price) for size, price in offered]
    paid = sum((pack.price or 0) * n for pack, n in cheapest(short, packs))
    every_way = product(*(range(short // size + 2) for size, _ in offered))
    least = min(
        sum(n * price for n, (_, price) in zip(way, offered, strict=True))
        for way in every_way
        if sum(n * size for n, (size, _) in zip(way, offered, strict=True)) >= short
    )
    assert paid == least


def test_without_prices_the_least_is_left_over() -> None:
    found = cheapest(12, [Pack("mouse-adult", 10), Pack("mouse-adult", 5)])
    assert [(pack.size, n) for pack, n in found] == [(10, 1), (5, 1)]


def test_a_big_pack_is_bought_where_it_is_cheaper() -> None:
    found = cheapest(8, [Pack("mouse-adult", 10, 9), Pack("mouse-adult", 1, 2)])
    assert [(pack.size, n) for pack, n in found] == [(10, 1)]


def test_the_cost_is_summed_and_what_has_no_price_is_named() -> None:
    umber = Forecast("Umber", (PlannedMeal(DAY, "rat-small", 3),), "why")
    pip = Forecast("Pip", (PlannedMeal(DAY, "mouse-pinky", 2),), "why not")
    found = order([umber, pip], [], [Pack("small rat", 2, 5.5)])
    assert found.cost == 11 and found.unpriced == ("mouse-pinky",)
    assert [a.words for a in found.animals] == ["why", "why not"]


def test_enough_stock_costs_nothing() -> None:
    umber = Forecast("Umber", (PlannedMeal(DAY, "rat-small", 3),), "")
    found = order([umber], [Lot(1, "rat-small", 9, DAY)], [])
    assert (found.lines[0].bought, found.cost, found.unpriced) == (0, 0, ())


def test_counts_come_in_the_order_of_the_prey_table() -> None:
    mixed = [Forecast("x", tuple(PlannedMeal(DAY, c, 1) for c in reversed(CODES)), "")]
    assert list(planned_counts(mixed)) == list(CODES)


@pytest.mark.parametrize(
    ("pack", "says"),
    [
        (Pack("mouse-adult", 0), "pack size of 1 or more"),
        (Pack("mouse-adult", 5, -1), "negative"),
        (Pack("mouse", 5), "may be several classes of food"),
        (Pack("hamster", 5), "no prey class"),
    ],
)
def test_packs_that_cannot_be_are_refused(pack: Pack, says: str) -> None:
    with pytest.raises(BadInput, match=says):
        check_pack(pack)
