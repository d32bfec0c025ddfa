"""Used sheets: which places are free, and where the next print starts."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from warmside.core.values.errors import BadInput
from warmside.plugins.labels.content.label import Label, LabelKind
from warmside.plugins.labels.paper.places import (
    free_places,
    parse_used,
    place_labels,
    used_after,
    used_text,
)
from warmside.plugins.labels.paper.stock import Stock, find_stock
from warmside.plugins.labels.paper.stockfile import shipped_stocks

STOCK = find_stock("a4-3x8", shipped_stocks())


def _labels(count: int) -> list[Label]:
    return [Label(LabelKind.ENCLOSURE, f"E{n}", "", ()) for n in range(count)]


def test_used_places_are_read() -> None:
    assert parse_used("1-7,12", STOCK) == {1, 2, 3, 4, 5, 6, 7, 12}
    assert parse_used(" 3 - 4 , 24", STOCK) == {3, 4, 24}


@pytest.mark.parametrize("text", ["", "x", "1-", "7-1", "0", "25", "1-99", "-3", "1,,2", "²"])
def test_unclear_or_foreign_places_are_refused(text: str) -> None:
    with pytest.raises(BadInput):
        parse_used(text, STOCK)


def test_a_start_beyond_the_sheet_is_refused() -> None:
    with pytest.raises(BadInput, match=r"start 99 is no place of a4-3x8, which has 24"):
        free_places(STOCK, 99)
    with pytest.raises(BadInput):
        free_places(STOCK, 0)


def test_a_full_sheet_is_refused() -> None:
    with pytest.raises(BadInput, match="take a new sheet"):
        free_places(STOCK, 1, frozenset(range(1, 25)))


@given(
    st.integers(1, 60),
    st.integers(1, 4),
    st.integers(1, 24),
    st.frozensets(st.integers(1, 24), max_size=20),
)
def test_every_label_gets_its_own_free_place_in_order(
    count: int, copies: int, start: int, used: frozenset[int]
) -> None:
    try:
        free = free_places(STOCK, start, used)
    except BadInput:
        return
    placed = place_labels(_labels(count), STOCK, free, copies)
    spots = [(item.page, item.place) for item in placed]
    assert len(placed) == count * copies and spots == sorted(set(spots))
    assert all(place >= start and place not in used for page, place in spots if page == 0)
    assert [item.label.code_text for item in placed] == [
        f"E{n}" for n in range(count) for _ in range(copies)
    ]


def test_a_sheet_remembers_what_was_used_before_and_now() -> None:
    free = free_places(STOCK, 3, frozenset({5, 20}))
    assert used_text(used_after(STOCK, free, place_labels(_labels(3), STOCK, free))) == "1-6,20"
    assert used_after(STOCK, free, place_labels(_labels(20), STOCK, free)) == frozenset()
    assert used_text(used_after(STOCK, free, place_labels(_labels(22), STOCK, free))) == "1-2"


@given(st.frozensets(st.integers(1, 24), min_size=1))
def test_used_places_come_back_as_they_were_written(used: frozenset[int]) -> None:
    assert parse_used(used_text(used), STOCK) == used


@pytest.mark.parametrize(("count", "copies"), [(0, 1), (1, 0), (1, -1), (1, 501), (100, 100)])
def test_nothing_or_far_too_much_is_refused(count: int, copies: int) -> None:
    stock: Stock = STOCK
    with pytest.raises(BadInput):
        place_labels(_labels(count), stock, [1], copies)
