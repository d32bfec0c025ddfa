"""Amounts as they stand on a prescription: `0.1 ml`, `5 mg`, `1/2 tablet`, `2 drops`.

Masses convert into each other, volumes too; a drop has no size of its own, and an international
unit no mass without the product, so these convert into nothing.
"""

from __future__ import annotations

import re
from fractions import Fraction

from msgspec import Struct

from warmside.api import BadInput, quoted

_SCALES: dict[str, tuple[str, Fraction | int]] = {
    "kg": ("mg", 1_000_000),
    "g": ("mg", 1_000),
    "mg": ("mg", 1),
    "mcg": ("mg", Fraction(1, 1000)),
    "l": ("ml", 1_000),
    "ml": ("ml", 1),
    "tablet": ("tablet", 1),
    "capsule": ("capsule", 1),
    "drop": ("drop", 1),
    "IU": ("IU", 1),
}
"""Each unit: what it is counted in, and how many of these it is."""
_ALSO = {"µg": "mcg", "μg": "mcg", "ug": "mcg", "iu": "IU", "tab": "tablet", "tabs": "tablet"}
_COUNTED = ("tablet", "capsule", "drop")
_WRITTEN = re.compile(r"\s*(\d+/\d+|\d+(?:[.,]\d+)?)\s*([^\W\d_]+)\s*")
_HOW = "write a number and a unit: 0.1 ml, 5 mg, 1/2 tablet, 2 drops"


class Amount(Struct, frozen=True):
    """A number of a unit, exact."""

    number: Fraction
    unit: str

    @property
    def words(self) -> str:
        """`0.1 ml`, `1/3 tablet`, `2 drops`."""
        many = "s" if self.unit in _COUNTED and self.number > 1 else ""
        return f"{_number_words(self.number)} {self.unit}{many}"

    def times_in(self, other: Amount) -> Fraction | None:
        """How many of these another amount holds; None where one cannot be told in the other."""
        (mine, times), (theirs, other_times) = _SCALES[self.unit], _SCALES[other.unit]
        if mine != theirs:
            return None
        return other.number * other_times / (self.number * times)


def amount_of(text: str, what: str = "amount") -> Amount:
    """An amount that was typed; BadInput where it is none, or is nothing or less."""
    found = _WRITTEN.fullmatch(text)
    if found is None:
        raise BadInput(f"{what} {quoted(text)} cannot be read; {_HOW}")
    number, unit = _number_of(found[1], what), _unit_of(found[2], what)
    if number <= 0:
        raise BadInput(f"{what} {quoted(text)} is nothing; {_HOW}")
    return Amount(number, unit)


def _unit_of(text: str, what: str) -> str:
    if text.casefold() in ("cc", "ccm"):
        raise BadInput(f"{what}: write ml in the place of {text}, which is misread easily")
    word = _ALSO.get(text.casefold(), text.casefold())
    word = word.removesuffix("s") if word.removesuffix("s") in _COUNTED else word
    if word not in _SCALES:
        units = ", ".join(_SCALES)
        raise BadInput(f"{what}: unit {quoted(text)} is not known; it is one of: {units}")
    return word


def _number_of(text: str, what: str) -> Fraction:
    if "/" in text:
        above, below = text.split("/")
        if int(below) == 0:
            raise BadInput(f"{what} {quoted(text)} cannot be read; {_HOW}")
        return Fraction(int(above), int(below))
    whole, comma, decimals = text.partition(",")
    if comma and len(decimals) == 3 and whole.strip("0"):
        raise BadInput(f"{what}: {text} may mean two things; write {whole}.{decimals} or without ,")
    return Fraction(text.replace(",", "."))


def _number_words(number: Fraction) -> str:
    """A decimal where that is exact and short, else a fraction."""
    shown = f"{float(number):.6g}"
    if "e" not in shown and Fraction(shown) == number:
        return shown
    return str(number)
