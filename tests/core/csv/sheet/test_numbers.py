"""Decimals and thousands are judged over the whole file, or asked about."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from warmside.core.csv.sheet.numbers import decimal_mark, plain_number
from warmside.core.values.errors import BadInput

NUMBERS = st.decimals(0, 9_999_999, places=2).map(lambda d: f"{d:,}")


@pytest.mark.parametrize(
    ("texts", "mark"),
    [
        (["1.268", "41,5"], ","),
        (["1.268", "41.5"], "."),
        (["1.268"], "?"),
        (["1,268 g"], "?"),
        (["1.268,5"], ","),
        (["1.268.000"], ","),
        (["0.268"], "."),
        (["412", "14 oz"], "."),
        (["41,5", "41.5"], "?"),
    ],
)
def test_one_sure_number_tells_for_all(texts: list[str], mark: str) -> None:
    assert decimal_mark(texts) == mark


@given(st.lists(NUMBERS, min_size=1, max_size=6), st.booleans())
def test_what_is_written_with_either_mark_is_read_as_the_same(
    texts: list[str], comma: bool
) -> None:
    swapped = str.maketrans(".,", ",.")
    shown = [t.translate(swapped) if comma else t for t in texts]
    mark = "," if comma else "."
    assert decimal_mark(shown) == mark
    assert [plain_number(t, mark) for t in shown] == [t.replace(",", "") for t in texts]


@pytest.mark.parametrize(("text", "mark"), [("41,5", "."), ("1.26", ","), ("12,34,567", ".")])
def test_thousands_that_are_none_are_refused(text: str, mark: str) -> None:
    with pytest.raises(BadInput):
        plain_number(text, mark)
