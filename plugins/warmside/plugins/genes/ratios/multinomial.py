"""The exact multinomial test: how odd are these counts, if that ratio is true?

Outcomes are ordered by their probability: the test adds up all outcomes that are not likelier than
the seen one. All is done in whole numbers, so that outcomes exactly as likely are counted with it.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from fractions import Fraction
from math import comb, lcm


def outcomes(young: int, classes: int) -> int:
    """In how many ways so many young can fall into so many classes."""
    return comb(young + classes - 1, classes - 1)


def chance_as_odd(seen: Sequence[int], expected: Sequence[Fraction]) -> Fraction:
    """The chance of counts as unlikely as those seen, or unlikelier, if `expected` is true.

    `expected` are shares in any scale (3 and 1), none negative and not all 0.
    """
    shares = _whole(expected)
    young = sum(seen)
    limit = _weight(seen, shares)
    odd = sum(w for w in _weights(young, shares) if w <= limit)
    return Fraction(odd, sum(shares) ** young)


def _whole(expected: Sequence[Fraction]) -> list[int]:
    """The same ratio in whole numbers."""
    scale = lcm(*(e.denominator for e in expected))
    return [int(e * scale) for e in expected]


def _weight(counts: Sequence[int], shares: Sequence[int]) -> int:
    """The probability of counts, times the sum of the shares to the power of the young."""
    weight, left = 1, sum(counts)
    for count, share in zip(counts, shares, strict=True):
        weight *= comb(left, count) * share**count
        left -= count
    return weight


def _weights(left: int, shares: Sequence[int], before: int = 1) -> Iterator[int]:
    """The weight of every outcome of the young that are left."""
    first, *rest = shares
    if not rest:
        yield before * first**left
        return
    for count in range(left + 1):
        yield from _weights(left - count, rest, before * comb(left, count) * first**count)
