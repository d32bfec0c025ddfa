"""Dates with unknown parts span, order and age as every day that they can be."""

from __future__ import annotations

from datetime import date

import pytest
from hypothesis import given
from hypothesis import strategies as st

from warmside.core.values.errors import BadInput
from warmside.core.values.moments import PartialDate, parse_partial_date

TODAY = date(2026, 3, 5)


@pytest.mark.parametrize(
    ("text", "earliest", "latest"),
    [
        ("2023", date(2023, 1, 1), date(2023, 12, 31)),
        ("2023-07", date(2023, 7, 1), date(2023, 7, 31)),
        ("2024-02", date(2024, 2, 1), date(2024, 2, 29)),
        ("2023-07-14", date(2023, 7, 14), date(2023, 7, 14)),
    ],
)
def test_a_partial_date_spans_what_it_leaves_open(text: str, earliest: date, latest: date) -> None:
    known = parse_partial_date(text)
    assert (known.earliest, known.latest, known.text, str(known)) == (earliest, latest, text, text)


@pytest.mark.parametrize(
    "text", ["", "23", "2023-", "2023-13", "2023-02-29", "14.07.2023", "July 2023", "0023"]
)
def test_what_is_no_partial_date_is_refused(text: str) -> None:
    with pytest.raises(BadInput):
        parse_partial_date(text)


def test_a_partial_date_is_a_real_one() -> None:
    assert PartialDate.of(TODAY) == PartialDate(2026, 3, 5)
    for parts in ((2023, None, 5), (2023, 2, 30), (2023, 13, None)):
        with pytest.raises(ValueError):
            PartialDate(*parts)


partial_dates = st.one_of(
    st.builds(PartialDate, st.integers(1990, 2030)),
    st.builds(PartialDate, st.integers(1990, 2030), st.integers(1, 12)),
    st.dates(date(1990, 1, 1), date(2030, 12, 31)).map(PartialDate.of),
)


@given(partial_dates)
def test_a_partial_date_reads_back(known: PartialDate) -> None:
    assert parse_partial_date(known.text) == known


@given(partial_dates, st.dates(date(1990, 1, 1), date(2030, 12, 31)), st.data())
def test_the_age_range_holds_every_age_that_is_possible(
    born: PartialDate, on: date, data: st.DataObject
) -> None:
    least, greatest = born.age_days(on)
    age = (on - data.draw(st.dates(born.earliest, born.latest))).days
    assert least <= greatest
    assert age < 0 <= greatest or least <= age <= greatest
    assert (greatest < 0) == (on < born.earliest)


def test_an_age_is_not_negative_while_the_hatch_may_have_happened() -> None:
    assert parse_partial_date("2026").age_days(TODAY) == (0, 63)
    assert parse_partial_date("2026-03-01").age_days(TODAY) == (4, 4)
    assert parse_partial_date("2027").age_days(TODAY) == (-666, -302)
