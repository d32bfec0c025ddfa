"""How many young fall to each side by what was agreed."""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction
from math import floor
from typing import NamedTuple

from warmside.plugins.lineage.loans.loan import ODD, OVER, Agreement


class Fall(NamedTuple):
    """Young that are ours, theirs, and those of which it was not agreed."""

    ours: int
    theirs: int
    open: int = 0

    @property
    def young(self) -> int:
        """All of them."""
        return self.ours + self.theirs + self.open

    def and_(self, other: Fall) -> Fall:
        """Both together."""
        return Fall(self.ours + other.ours, self.theirs + other.theirs, self.open + other.open)


NONE = Fall(0, 0)


def fall(young: int, agreed: Agreement) -> Fall:
    """The young that fall to each side; an odd one is open where nobody was said to have it.

    Each side has the whole young of its share; at most one is left over.
    """
    if agreed.ours_percent is None:
        return Fall(0, 0, young)
    share = Fraction(str(agreed.ours_percent)) / 100 * young
    ours, theirs = floor(share), floor(young - share)
    left = young - ours - theirs
    if agreed.odd == ODD["us"]:
        return Fall(ours + left, theirs)
    if agreed.odd == ODD["them"]:
        return Fall(ours, theirs + left)
    return Fall(ours, theirs, left)


def falls(clutches: Sequence[int], agreed: Agreement) -> tuple[list[Fall | None], Fall]:
    """What falls to each side of each clutch, and in all.

    Where all clutches are shared out together, no clutch has a division of its own.
    """
    if agreed.over == OVER["all clutches"]:
        return [None] * len(clutches), fall(sum(clutches), agreed)
    each = [fall(young, agreed) for young in clutches]
    total = NONE
    for one in each:
        total = total.and_(one)
    return list(each), total
