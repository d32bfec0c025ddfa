"""What is left of each lot, computed from the record."""

from __future__ import annotations

from datetime import date, timedelta

from hypothesis import given
from hypothesis import strategies as st

from warmside.plugins.feeding.stock.counting import (
    Came,
    Eaten,
    Thrown,
    left_of,
    settled_at,
    settling_day,
)
from warmside.plugins.feeding.stock.lots import Lot

DAY = date(2026, 3, 5)


def ago(days: int) -> date:
    return DAY - timedelta(days=days)


def came(id: int, count: int, days: int, frozen: int | None = None) -> Came:
    return Came(Lot(id, "mouse-adult", count, ago(frozen or days)), ago(days))


def mice(days: int, count: int) -> Eaten:
    return Eaten(ago(days), "mouse-adult", count)


def counts(*args: object) -> list[int]:
    return [lot.count for lot in left_of(*args)]  # type: ignore[arg-type]


def test_meals_take_from_the_oldest_lot() -> None:
    lots = [came(1, 5, 40), came(2, 5, 40, frozen=90)]
    assert counts(lots, [mice(3, 6)], []) == [4, 0]


def test_a_meal_before_the_lot_came_takes_nothing() -> None:
    assert counts([came(1, 5, 10)], [mice(11, 3), mice(10, 1)], []) == [4]


def test_meals_beyond_the_stock_take_what_is_there() -> None:
    assert counts([came(1, 2, 10)], [mice(5, 3)], []) == [0]
    assert counts([came(1, 2, 10), came(2, 4, 1)], [mice(5, 3)], []) == [0, 4]


def test_what_was_thrown_away_is_gone_before_the_meals_of_the_day() -> None:
    lots = [came(1, 10, 40), came(2, 10, 10)]
    assert counts(lots, [mice(0, 2)], [Thrown(DAY, 1, 8)]) == [0, 10]


def test_throwing_a_lot_that_is_no_longer_there_does_nothing() -> None:
    assert counts([came(1, 3, 9)], [], [Thrown(DAY, 7, 3)]) == [3]


def test_stock_is_settled_once_it_is_old_enough_and_not_every_day() -> None:
    assert settling_day(DAY, None) == ago(30)
    settled = settled_at([came(1, 5, 90)], [mice(60, 2)], [], ago(30))
    assert settled.left == {1: 3}
    assert settling_day(DAY, settled) is None
    assert settling_day(DAY + timedelta(days=30), settled) == DAY


days = st.integers(0, 120)
many_lots = st.lists(st.tuples(st.integers(1, 30), days, days), max_size=6)
many_meals = st.lists(st.tuples(days, st.integers(1, 5)), max_size=30)
many_thrown = st.lists(st.tuples(days, st.integers(1, 6), st.integers(1, 5)), max_size=5)


@given(many_lots, many_meals, many_thrown, st.integers(0, 120))
def test_going_on_from_a_settled_day_gives_the_same(
    lots: list[tuple[int, int, int]],
    meals: list[tuple[int, int]],
    gone: list[tuple[int, int, int]],
    day: int,
) -> None:
    all_lots = [came(n, c, d, f) for n, (c, d, f) in enumerate(lots, 1)]
    eaten, thrown = [mice(*m) for m in meals], [Thrown(ago(d), lot, c) for d, lot, c in gone]
    settled = settled_at(all_lots, eaten, thrown, ago(day))
    assert left_of(all_lots, eaten, thrown, settled) == left_of(all_lots, eaten, thrown)


@given(many_lots, many_meals)
def test_nothing_is_made_up_and_no_more_is_taken_than_was_eaten(
    lots: list[tuple[int, int, int]], meals: list[tuple[int, int]]
) -> None:
    all_lots = [came(n, c, d) for n, (c, d, _) in enumerate(lots, 1)]
    left = left_of(all_lots, [mice(*m) for m in meals], [])
    assert all(0 <= x.count <= c.lot.count for x, c in zip(left, all_lots, strict=True))
    taken = sum(c.lot.count for c in all_lots) - sum(x.count for x in left)
    assert taken <= sum(count for _, count in meals)
