"""Transponder numbers: the code structure of ISO 11784 as it is written and as readers show it.

A code has 64 bits, of which 10 say who allotted the number and 38 are the animal's own. Written it
has 15 digits: three for the country (ISO 3166-1 numeric) or maker (from 900 on), twelve for the
animal, so that the twelve are at most 2^38 - 1. There is no check digit; the CRC of ISO 11785 is
never written down. After ISO/FDIS 11784 (preview of the scope) and ICAR's slide on the coding of
the transponder; 900 as a number shared by makers and 999 for tests: from memory.
"""

from __future__ import annotations

import re
from functools import cache

from msgspec import Struct

from warmside.api import BadInput, quoted, sourced_rows

DIGITS = 15
MOST_OWN = 2**38 - 1
FIRST_MAKER, SHARED, TEST = 900, 900, 999
OLDER = (9, 10)
"""Digits and letters of older chips that are none of ISO 11784; from memory."""
ANIMAL_BIT = 1 << 63


class Transponder(Struct, frozen=True):
    """A number by ISO 11784: by whom it was allotted, and the animal's own part."""

    allotted: int
    own: int

    @property
    def text(self) -> str:
        """Its 15 digits."""
        return f"{self.allotted:03d}{self.own:012d}"

    @property
    def dotted(self) -> str:
        """As some readers show it, in hexadecimal digits: `3E7.1CBE991A14`."""
        return f"{self.allotted:03X}.{self.own:010X}"

    @property
    def bits(self) -> int:
        """The 64 bits, the one for an animal set, the reserved ones and the one for data not."""
        return ANIMAL_BIT | self.allotted << 38 | self.own

    @property
    def by(self) -> str:
        """Who allotted the number; not where the animal lives or comes from."""
        if self.allotted == TEST:
            return "a number for tests"
        if self.allotted == SHARED:
            return "a maker with a shared number"
        if self.allotted > SHARED:
            return f"the maker {self.allotted}"
        return countries().get(self.allotted, f"country {self.allotted}, which there is not")


def read_transponder(text: str) -> Transponder | None:
    """The number that was typed, or None for one of an older chip, which is kept as it is.

    Blanks, dots and hyphens between digits count for nothing. Raises BadInput where no number of
    this length or size can be.
    """
    if dotted := re.fullmatch(r"([0-9A-Fa-f]{3})\.([0-9A-Fa-f]{10})", text.strip()):
        return _checked(int(dotted[1], 16), int(dotted[2], 16), text)
    plain = plain_number(text)
    if len(plain) == DIGITS and plain.isdigit() and plain.isascii():
        return _checked(int(plain[:3]), int(plain[3:]), text)
    if len(plain) in OLDER and plain.isalnum() and plain.isascii():
        return None
    if len(plain) == DIGITS:
        raise BadInput(
            f"transponder {quoted(text)} has a sign that is no digit; by ISO 11784 all {DIGITS} "
            "are; compare it with the reader or the papers"
        )
    raise BadInput(
        f"transponder {quoted(text)} has {len(plain)} digits; by ISO 11784 it has {DIGITS}, on "
        "older chips 9 or 10; compare it with the reader or the papers"
    )


def plain_number(text: str) -> str:
    """The number without what was typed to read it better, letters in capitals."""
    return re.sub(r"[\s.\-]", "", text).upper()


def doubts(number: Transponder) -> tuple[str, ...]:
    """What is odd about a number that can be."""
    if number.allotted == TEST:
        return ("999 at its head is for tests: no animal is given such a number",)
    if number.allotted < FIRST_MAKER and number.allotted not in countries():
        return (f"no country has the number {number.allotted:03d}: the first three digits",)
    return ()


def _checked(allotted: int, own: int, text: str) -> Transponder:
    if not 1 <= allotted <= TEST:
        raise BadInput(f"transponder {quoted(text)} begins with {allotted:03d}, which nobody has")
    if own > MOST_OWN:
        raise BadInput(
            f"transponder {quoted(text)} cannot be: its last twelve digits are at most {MOST_OWN}; "
            "compare it with the reader or the papers"
        )
    return Transponder(allotted, own)


@cache
def countries() -> dict[int, str]:
    """The names of countries by their numbers in ISO 3166-1."""
    (row,) = sourced_rows("warmside.plugins.papers", "countries", "countries")
    return {int(number): name for number, name in row["names"].items()}
