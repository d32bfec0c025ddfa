"""How odd counts are for a ratio: exactly where that can be reckoned, else by draws."""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction

from msgspec import Struct

from warmside.plugins.genes.ratios.drawn import DRAWS, drawn_chance
from warmside.plugins.genes.ratios.likelier import TooMany
from warmside.plugins.genes.ratios.multinomial import chance_as_odd

ADDED_UP = (
    "all outcomes that are not likelier than the counted one, added up, each reckoned exactly"
)
DRAWN = (
    f"of {DRAWS:,} counts drawn at random by the ratio, the share that is not likelier than the "
    "counted one; there are too many outcomes to add up each"
)


class Oddness(Struct, frozen=True):
    """The chance of counts as odd as those seen, if the ratio is true.

    `exact` is that chance as a fraction; None where counts were drawn at random, and then the
    chance lies from `low` to `high` with 95 %.
    """

    chance: float
    exact: Fraction | None
    low: float
    high: float

    @property
    def rule(self) -> str:
        """How it was reckoned."""
        return DRAWN if self.exact is None else ADDED_UP


def oddness(seen: Sequence[int], expected: Sequence[Fraction]) -> Oddness:
    """How odd the counts are; `expected` are shares in any scale, none negative, not all 0."""
    try:
        exact = chance_as_odd(seen, expected)
    except TooMany:
        chance, low, high = drawn_chance(seen, expected)
        return Oddness(chance, None, low, high)
    return Oddness(float(exact), exact, float(exact), float(exact))
