"""Columns share a line."""

from __future__ import annotations

from hypothesis import given
from hypothesis import strategies as st

from warmside.faces.terminal.fitting import fitted


def test_what_fits_stays_as_it_is() -> None:
    assert fitted([5, 10], [2, 2], 15) == [5, 10]


def test_the_widest_gives_way_first() -> None:
    widths = fitted([5, 10, 100], [2, 2, 2], 40)
    assert widths is not None
    assert [round(wide, 3) for wide in widths] == [5, 10, 25]


def test_none_where_the_least_does_not_fit() -> None:
    assert fitted([50, 50], [21, 20], 40) is None


@given(
    st.lists(st.tuples(st.integers(1, 200), st.integers(1, 200)), min_size=1, max_size=8),
    st.integers(1, 300),
)
def test_breadths_fit_and_keep_their_least(pairs: list[tuple[int, int]], room: int) -> None:
    natural = [max(pair) for pair in pairs]
    least = [min(pair) for pair in pairs]
    widths = fitted(natural, least, room)
    assert (widths is None) == (sum(least) > room)
    if widths is not None:
        assert sum(widths) <= room + 1e-9
        for wide, most, few in zip(widths, natural, least, strict=True):
            assert few <= wide <= most
