"""Amounts as they stand on a prescription."""

from __future__ import annotations

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from warmside.api import BadInput
from warmside.plugins.health.courses.amount import Amount, amount_of


@pytest.mark.parametrize(
    ("typed", "number", "unit"),
    [
        ("0.1 ml", Fraction(1, 10), "ml"),
        ("0,1ml", Fraction(1, 10), "ml"),
        ("5mg", Fraction(5), "mg"),
        ("50 µg", Fraction(50), "mcg"),
        ("1/2 tablet", Fraction(1, 2), "tablet"),
        ("2 Tablets", Fraction(2), "tablet"),
        ("3 drops", Fraction(3), "drop"),
        ("1000 IU", Fraction(1000), "IU"),
    ],
)
def test_it_is_read_exactly(typed: str, number: Fraction, unit: str) -> None:
    assert amount_of(typed) == Amount(number, unit)


@pytest.mark.parametrize(
    ("typed", "said"),
    [
        ("0.1", "a number and a unit"),
        ("0 ml", "is nothing"),
        ("-1 ml", "a number and a unit"),
        ("1 cc", "write ml"),
        ("1 spoon", "not known"),
        ("1,500 ml", "may mean two things"),
        ("1/0 tablet", "cannot be read"),
        ("half a tablet", "cannot be read"),
    ],
)
def test_what_is_no_amount_is_refused_in_a_line(typed: str, said: str) -> None:
    with pytest.raises(BadInput, match=said) as refused:
        amount_of(typed)
    assert "\n" not in str(refused.value)


def test_masses_and_volumes_convert_and_what_has_no_size_does_not() -> None:
    # BIPM, The International System of Units, 9th ed. 2019, tables 7 and 8: milli, micro, litre
    assert amount_of("250 mcg").times_in(amount_of("1 g")) == 4000
    assert amount_of("0.1 ml").times_in(amount_of("0.005 l")) == 50
    for one, other in (("1 drop", "5 ml"), ("1000 IU", "5 mg"), ("1 tablet", "20 mg")):
        assert amount_of(one).times_in(amount_of(other)) is None


@given(st.integers(1, 9999), st.integers(0, 3), st.sampled_from(["ml", "mg", "tablet", "IU"]))
def test_its_words_are_read_as_the_same_amount(number: int, places: int, unit: str) -> None:
    one = Amount(Fraction(number, 10**places), unit)
    assert amount_of(one.words) == one
