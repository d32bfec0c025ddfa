"""The exact multinomial test: how odd are these counts, if that ratio is true?

Outcomes are ordered by their probability: the test adds up all outcomes that are not likelier than
the seen one. All is done in whole numbers, so that outcomes exactly as likely are counted with it.
"""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction
from math import comb, gcd, lcm

from warmside.plugins.genes.ratios.likelier import likelier


def chance_as_odd(seen: Sequence[int], expected: Sequence[Fraction]) -> Fraction:
    """The chance of counts as unlikely as those seen, or unlikelier, if `expected` is true.

    `expected` are shares in any scale (3 and 1), none negative and not all 0. Raises TooMany where
    more outcomes are likelier than can be gone through.
    """
    if any(count and not share for count, share in zip(seen, expected, strict=True)):
        return Fraction(0)
    shares = whole(expected)
    limit = weight(seen, shares)
    every = sum(shares) ** sum(seen)
    return Fraction(every - likelier(sum(seen), sorted(filter(None, shares)), limit), every)


def whole(expected: Sequence[Fraction]) -> list[int]:
    """The same ratio in the least whole numbers."""
    scale = lcm(*(e.denominator for e in expected))
    shares = [int(e * scale) for e in expected]
    common = gcd(*shares)
    return [share // common for share in shares]


def weight(counts: Sequence[int], shares: Sequence[int]) -> int:
    """The probability of counts, times the sum of the shares to the power of the young."""
    found, left = 1, sum(counts)
    for count, share in zip(counts, shares, strict=True):
        found *= comb(left, count) * share**count
        left -= count
    return found
