"""Transponder numbers by ISO 11784, held against published examples.

- README of the package ISO11784Tools 1.2.0 (Diack, CRAN, doi 10.32614/CRAN.package.ISO11784Tools):
  one code in four writings.
- ICAR, ISO 11784 coding of the transponder (slide 7, as copied on yumpu.com, document 34987219):
  10 bits for country or maker, 38 bits or 274,877,906,944 codes for the animal, Germany 276.
- Arrêté du 1er août 2012 (France, AGRG1228993A), article 5: 250, then 26 for carnivores, two
  digits for the maker and eight for the serial number.
- Names of countries: pycountry.
"""

from __future__ import annotations

import pycountry
import pytest
from hypothesis import given
from hypothesis import strategies as st

from warmside.api import BadInput
from warmside.plugins.papers.numbers.transponder import (
    MOST_OWN,
    Transponder,
    countries,
    doubts,
    read_transponder,
)

ICAR_CODES = 274_877_906_944


def test_one_code_in_the_writings_of_readers() -> None:
    found = read_transponder("999123456789012")
    assert found == Transponder(999, 123_456_789_012)
    assert found.dotted == "3E7.1CBE991A14"
    assert f"{found.bits:016X}" == "8000F9DCBE991A14"
    assert read_transponder("3E7.1CBE991A14") == found


def test_the_animals_own_part_has_38_bits() -> None:
    assert MOST_OWN == ICAR_CODES - 1
    highest = read_transponder(f"276{MOST_OWN}")
    assert highest is not None and highest.by == "Germany"
    with pytest.raises(BadInput, match="its last twelve digits are at most 274877906943"):
        read_transponder(f"276{MOST_OWN + 1}")


def test_a_french_number_is_read() -> None:
    found = read_transponder("250 26 95 00001234")
    assert found is not None and found.by == "France" and found.own == 269_500_001_234


def test_countries_are_those_of_the_standard() -> None:
    assert countries().keys() == {int(c.numeric) for c in pycountry.countries}
    assert countries()[276] == pycountry.countries.get(numeric="276").name


@given(st.integers(1, 999), st.integers(0, MOST_OWN))
def test_every_number_is_read_back(allotted: int, own: int) -> None:
    number = Transponder(allotted, own)
    assert len(number.text) == 15
    assert read_transponder(number.text) == number == read_transponder(number.dotted)
    assert number.bits >> 38 & 0x3FF == allotted and number.bits & MOST_OWN == own


@pytest.mark.parametrize("digits", [1, 8, 11, 14, 16])
def test_a_wrong_length_is_told(digits: int) -> None:
    with pytest.raises(BadInput, match=f"has {digits} digits; by ISO 11784 it has 15"):
        read_transponder("9" * digits)


@pytest.mark.parametrize("older", ["123456789", "0A1B2C3D4E", "012 345-678"])
def test_an_older_chip_is_kept_as_it_is(older: str) -> None:
    assert read_transponder(older) is None


@pytest.mark.parametrize(
    ("text", "odd"),
    [
        ("999000000000001", True),
        ("277000000000001", True),
        ("900118000123456", False),
        ("985112999999999", False),
        ("276098100123456", False),
    ],
)  # the last three: valid numbers of makers and of Germany, made up
def test_what_no_animal_is_given_is_asked_about(text: str, odd: bool) -> None:
    found = read_transponder(text)
    assert found is not None and bool(doubts(found)) is odd


def test_nobody_has_the_number_000() -> None:
    with pytest.raises(BadInput, match="begins with 000, which nobody has"):
        read_transponder("000000000000001")
