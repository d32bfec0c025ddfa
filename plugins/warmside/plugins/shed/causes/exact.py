"""Exact statements about counts in two groups, by SciPy, which is imported on the first call.

Fisher's exact test and the exact interval of the odds ratio rest on the hypergeometric
distribution (Fisher 1935; Cornfield 1956).
"""

from __future__ import annotations

import math

from msgspec import Struct


class Counts(Struct, frozen=True):
    """Bad and good outcomes in a first and a second group."""

    first_bad: int
    first_good: int
    second_bad: int
    second_good: int

    @property
    def first(self) -> int:
        """How many are in the first group."""
        return self.first_bad + self.first_good

    @property
    def second(self) -> int:
        """How many are in the second group."""
        return self.second_bad + self.second_good

    @property
    def table(self) -> tuple[tuple[int, int], tuple[int, int]]:
        """Groups as rows, bad before good."""
        return (self.first_bad, self.first_good), (self.second_bad, self.second_good)

    def one_sided(self) -> bool:
        """Whether a group is empty, or all outcomes are alike: nothing can be compared then."""
        bad = self.first_bad + self.second_bad
        return 0 in (self.first, self.second, bad, self.first + self.second - bad)


def fisher(counts: Counts) -> float:
    """The two-sided p of Fisher's exact test: all tables no likelier than this one."""
    if counts.one_sided():
        return 1.0
    from scipy.stats import fisher_exact  # late: more than a second

    return float(fisher_exact(counts.table)[1])


def least_possible(counts: Counts) -> float:
    """The smallest p that any table with the same totals could give."""
    bad = counts.first_bad + counts.second_bad
    ends = max(0, bad - counts.second), min(bad, counts.first)
    return min(fisher(_with_first_bad(counts, at)) for at in ends)


def odds_interval(counts: Counts) -> tuple[float, float]:
    """The exact 95 % interval of the odds of a bad outcome, first group over second."""
    if counts.one_sided():
        return 0.0, math.inf
    from scipy.stats.contingency import odds_ratio

    found = odds_ratio(counts.table, kind="conditional").confidence_interval(0.95)
    return float(found.low), float(found.high)


def _with_first_bad(counts: Counts, bad: int) -> Counts:
    moved = bad - counts.first_bad
    return Counts(
        bad, counts.first_good - moved, counts.second_bad - moved, counts.second_good + moved
    )
