"""Intervals known only between bounds: what they add to the exact ones.

EM for a normal sample with interval-censored values (Dempster, Laird & Rubin 1977), on log days.
A bounded interval then counts as less than one: by the share of information that is left of it,
1 - var(log days | bounds) / variance (the missing information principle, Orchard & Woodbury 1972).
Exact intervals go through unchanged.
"""

from __future__ import annotations

import math
from collections import Counter
from collections.abc import Sequence

from warmside.plugins.shed.forecast.intervals import Interval
from warmside.plugins.shed.forecast.predictive import Belief, Summary, updated

_ROUNDS = 5000
_CLOSE = 1e-13
_ROOT_2, _ROOT_2_PI = math.sqrt(2), math.sqrt(2 * math.pi)

Bounds = tuple[float, float]
Moments = tuple[float, float]


def summary(intervals: Sequence[Interval], belief: Belief) -> Summary:
    """The log intervals in three numbers, under a belief that there was before them."""
    bounds = [_log_bounds(i) for i in intervals]
    start = _summed([(_middle(b), 0.0, 1) for b in bounds])
    if all(low == high for low, high in bounds):
        return start
    return _discounted(bounds, *_fit(bounds, start, belief))


def _fit(bounds: list[Bounds], start: Summary, belief: Belief) -> tuple[float, float]:
    now = updated(belief, start)
    mean, variance = now.mean, max(now.variance, 1e-4)
    alike = Counter(bounds)  # whole days: many intervals of a long record are the same
    for _ in range(_ROUNDS):
        each = [(*_moments(b, mean, variance), n) for b, n in alike.items()]
        after = updated(belief, _summed(each))
        moved = abs(after.mean - mean) + abs(after.variance - variance)
        mean, variance = after.mean, after.variance
        if moved < _CLOSE:
            break
    return mean, variance


def _discounted(bounds: list[Bounds], mean: float, variance: float) -> Summary:
    """So many values, so placed, that the belief keeps the mean and variance that EM found."""
    moments = [_moments(b, mean, variance) for b in bounds]
    count = sum(1 - min(1.0, spread / variance) for _, spread in moments)
    if count < _CLOSE:
        return Summary(0.0, mean, 0.0)
    shift = sum(m - mean for m, _ in moments) / count
    squares = sum((m - mean) ** 2 for m, _ in moments) - count * shift**2
    return Summary(count, mean + shift, max(0.0, squares))


def _summed(moments: Sequence[tuple[float, float, int]]) -> Summary:
    """Means and variances, each with how many intervals it stands for, in three numbers."""
    count = sum([n for _, _, n in moments])
    mean = sum([n * m for m, _, n in moments]) / max(count, 1)
    return Summary(count, mean, sum([n * ((m - mean) ** 2 + s) for m, s, n in moments]))


def _log_bounds(interval: Interval) -> Bounds:
    return math.log(interval.low_days), math.log(interval.high_days)


def _middle(bounds: Bounds) -> float:
    low, high = bounds
    return low if math.isinf(high) else (low + high) / 2


def _moments(bounds: Bounds, mean: float, variance: float) -> Moments:
    """Mean and variance of a normal value that lies between the bounds."""
    low, high = bounds
    if low == high:
        return low, 0.0
    sd = math.sqrt(variance)
    a, b = (low - mean) / sd, (high - mean) / sd
    inside = _mass(a, b)
    if inside < 1e-290:
        return (low if a > 0 else high), 0.0
    at_a, at_b = _density(a), _density(b)
    shift = (at_a - at_b) / inside
    bend = ((0.0 if math.isinf(a) else a * at_a) - (0.0 if math.isinf(b) else b * at_b)) / inside
    return mean + sd * shift, max(0.0, variance * (1 + bend - shift**2))


def _mass(a: float, b: float) -> float:
    if a > 0:
        a, b = -b, -a
    return (math.erfc(-b / _ROOT_2) - math.erfc(-a / _ROOT_2)) / 2


def _density(z: float) -> float:
    return math.exp(-z * z / 2) / _ROOT_2_PI
