"""Exact statements about counts in two groups, with the standard library only.

Fisher's exact test and the exact interval of the odds ratio are read from the hypergeometric
distribution (Fisher 1935; Cornfield 1956); the interval of a share is Wilson's (Wilson 1927).
"""

from __future__ import annotations

import math
from collections.abc import Callable
from dataclasses import dataclass

Z_95 = 1.959963984540054  # the 97.5 % point of the normal distribution
_SAME = 1e-7  # tables this close in chance count as equally likely, as R and SciPy do


@dataclass(frozen=True, slots=True)
class Counts:
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


def fisher(counts: Counts) -> float:
    """The two-sided p of Fisher's exact test: all tables no likelier than this one."""
    low, chances = _tables(counts, 0.0)
    limit = chances[counts.first_bad - low] * (1 + _SAME)
    return min(1.0, math.fsum(c for c in chances if c <= limit))


def least_possible(counts: Counts) -> float:
    """The smallest p that any table with the same totals could give."""
    chances = _tables(counts, 0.0)[1]
    ends = min(chances[0], chances[-1])
    return math.fsum(c for c in chances if c <= ends * (1 + _SAME))


def odds_interval(counts: Counts) -> tuple[float, float]:
    """The exact 95 % interval of the odds of a bad outcome, first group over second."""
    low, chances = _tables(counts, 0.0)
    at, last = counts.first_bad - low, len(chances) - 1
    bottom = 0.0 if at == 0 else math.exp(_crossing(lambda u: _tail_up(counts, u)))
    top = math.inf if at == last else math.exp(_crossing(lambda u: -_tail_down(counts, u)))
    return bottom, top


def wilson(bad: int, total: int) -> tuple[float, float]:
    """Wilson's 95 % interval of a share, as numbers between 0 and 1; total above 0."""
    share, z2 = bad / total, Z_95**2
    middle = share + z2 / (2 * total)
    reach = Z_95 * math.sqrt(share * (1 - share) / total + z2 / (4 * total**2))
    low, high = ((middle + side * reach) / (1 + z2 / total) for side in (-1, 1))
    return (0.0 if bad == 0 else low), (1.0 if bad == total else high)


def _tables(counts: Counts, log_odds: float) -> tuple[int, list[float]]:
    """The least possible first_bad, and the chance of each from there up, for given odds."""
    bad = counts.first_bad + counts.second_bad
    low, high = max(0, bad - counts.second), min(bad, counts.first)
    logs = [
        _log_choose(counts.first, k) + _log_choose(counts.second, bad - k) + k * log_odds
        for k in range(low, high + 1)
    ]
    top = max(logs)
    weights = [math.exp(v - top) for v in logs]
    whole = math.fsum(weights)
    return low, [w / whole for w in weights]


def _log_choose(n: int, k: int) -> float:
    return math.log(math.comb(n, k))


def _tail_up(counts: Counts, log_odds: float) -> float:
    low, chances = _tables(counts, log_odds)
    return math.fsum(chances[counts.first_bad - low :]) - 0.025


def _tail_down(counts: Counts, log_odds: float) -> float:
    low, chances = _tables(counts, log_odds)
    return math.fsum(chances[: counts.first_bad - low + 1]) - 0.025


def _crossing(rising: Callable[[float], float]) -> float:
    """Where a rising function of the log odds crosses 0, by halving."""
    low, high = -50.0, 50.0
    for _ in range(100):
        middle = (low + high) / 2
        low, high = (low, middle) if rising(middle) > 0 else (middle, high)
    return (low + high) / 2
