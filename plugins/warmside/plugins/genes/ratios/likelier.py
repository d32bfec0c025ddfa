"""All outcomes that are likelier than a given one: they lie together around the likeliest.

Counts of one class after the other are tried from the likeliest count outwards, and given up where
even the best counts of the classes left are no likelier: the chances fall to both sides, since each
class adds a concave term to the logarithm. So a test of 556 young in four classes goes through some
thousand outcomes and not through 29 million. Logarithms only say where to stop; what counts is
compared and added in whole numbers.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from math import comb, inf, lgamma, log, log2

MOST_WORK = 600_000_000
"""Outcomes times bits of their weights: about a second."""
SLACK = 1e-6
"""What the logarithms may be wrong by; 10,000 young cost them about 1e-10."""


class TooMany(Exception):
    """More outcomes are likelier than can be gone through."""


def likelier(young: int, shares: Sequence[int], limit: int) -> int:
    """The sum of the weights of all outcomes of a weight above `limit`.

    A weight is a probability times the sum of the shares to the power of the young; the shares are
    whole, above 0 and not falling. Raises TooMany.
    """
    if len(shares) == 1:
        return shares[0] ** young if shares[0] ** young > limit else 0
    return sum(_Search(young, shares, limit).sums(0, young, 0.0, 1))


class _Search:
    """One search; the work that is left falls with each outcome."""

    def __init__(self, young: int, shares: Sequence[int], limit: int) -> None:
        self.shares, self.limit = shares, limit
        self.logs = [log(share) for share in shares]
        self.factorials = [lgamma(n + 1) for n in range(young + 1)]
        self.least = _log(limit) - self.factorials[young] - SLACK
        self.best = [_best(young, shares[n:]) for n in range(len(shares))]
        bits = max(1.0, young * log2(sum(shares)))
        self.work = int(MOST_WORK / bits)

    def sums(self, at: int, left: int, log_before: float, before: int) -> Iterator[int]:
        """Sums of weights of what is likelier, of the young left to the classes from `at` on."""
        if at == len(self.shares) - 2:
            yield self._last_two(left, before)
            return
        share, (_, likeliest) = self.shares[at], self.best[at]
        for count in self._outwards(at, left, likeliest[left], log_before):
            here = log_before + self._term(at, count)
            ways = before * comb(left, count) * share**count
            yield from self.sums(at + 1, left - count, here, ways)

    def _term(self, at: int, count: int) -> float:
        return count * self.logs[at] - self.factorials[count]

    def _outwards(self, at: int, left: int, middle: int, log_before: float) -> Iterator[int]:
        """The counts of a class with which anything can be likelier."""
        rest = self.best[at + 1][0]
        for counts in (range(middle, left + 1), range(middle - 1, -1, -1)):
            for count in counts:
                if log_before + self._term(at, count) + rest[left - count] < self.least:
                    break
                yield count

    def _last_two(self, left: int, before: int) -> int:
        """The sum over the two last classes: outwards from the likeliest count of the first."""
        one, other = self.shares[-2:]
        middle = self.best[-2][1][left]
        top: int = before * comb(left, middle) * one**middle * other ** (left - middle)
        if top <= self.limit:
            self._spend(1)
            return 0
        total, weight, count = top, top, middle
        while (weight := weight * (left - count) * one // ((count + 1) * other)) > self.limit:
            total, count = total + weight, count + 1
        self._spend(count - middle + 1)
        weight, lower = top, middle
        while (weight := weight * lower * other // ((left - lower + 1) * one)) > self.limit:
            total, lower = total + weight, lower - 1
        self._spend(middle - lower + 1)
        return total

    def _spend(self, outcomes: int) -> None:
        self.work -= outcomes
        if self.work < 0:
            raise TooMany


def _log(number: int) -> float:
    return log(number) if number else -inf


def _best(young: int, shares: Sequence[int]) -> tuple[list[float], list[int]]:
    """For each number of young up to `young`: the logarithm of the likeliest outcome in these
    classes, without the factorial of the number, and how many of it are in the first class.

    One young more goes where it is likeliest: the likeliest outcome grows by one class at a time.
    """
    counts = [0] * len(shares)
    best, first = [0.0], [0]
    for _ in range(young):
        at = max(range(len(shares)), key=lambda n: shares[n] / (counts[n] + 1))
        counts[at] += 1
        best.append(best[-1] + log(shares[at]) - log(counts[at]))
        first.append(counts[0])
    return best, first
