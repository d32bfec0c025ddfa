"""Whether intervals grow with age or with meals; used only where the animal's own data show it.

Ordinary regression of log days on one driver; Bayesian with the same prior on the level at the
present and none on the slope (Gelman et al., Bayesian Data Analysis, chapter 14).
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Sequence

from msgspec import Struct

from warmside.api import BadInput, figures
from warmside.plugins.shed.forecast.intervals import Interval
from warmside.plugins.shed.forecast.predictive import Belief, Predictive

NEEDS = 8  # exact intervals; common practice, no source
SHOWN_BELOW = 0.01  # chance of such a slope where there is none; common practice, no source
# Below this t no slope is shown, however many intervals there are: the two-sided 1 % point of the
# normal distribution is 2.5758, and that of t lies higher for every number of degrees of freedom.
SHOWN_FROM = 2.57
REACH = 0.25  # how far beyond the values seen the present may lie, as a share of their range


class Driver(Struct, frozen=True):
    """What may drive the intervals: one value for each, and the value of the present one."""

    name: str
    values: tuple[float, ...]
    now: float


class Trend(Struct, frozen=True):
    """A slope in log days for one unit of its driver, and the chance of it by luck alone."""

    driver: str
    slope: float
    p_value: float
    predictive: Predictive


def shown(intervals: Sequence[Interval], drivers: Iterable[Driver], belief: Belief) -> Trend | None:
    """The clearest trend that the exact intervals show, or None."""
    found = [t for d in drivers if (t := _clear(intervals, d, belief)) is not None]
    return min(found, key=lambda t: t.p_value, default=None)


def _clear(intervals: Sequence[Interval], driver: Driver, belief: Belief) -> Trend | None:
    if len(driver.values) != len(intervals):
        raise BadInput(
            f"{driver.name} has {len(driver.values)} values for {len(intervals)} intervals"
        )
    pairs = zip(driver.values, intervals, strict=True)
    points = [(x - driver.now, math.log(i.low_days)) for x, i in pairs if i.exact]
    if len(points) < NEEDS or not _within_reach([x for x, _ in points]):
        return None
    slope, p_value = _slope(points)
    if p_value >= SHOWN_BELOW:
        return None
    return Trend(driver.name, slope, p_value, _at_zero(points, belief))


def _within_reach(offsets: list[float]) -> bool:
    low, high = min(offsets), max(offsets)
    reach = REACH * (high - low)
    return high > low and low - reach <= 0 <= high + reach


def _slope(points: list[tuple[float, float]]) -> tuple[float, float]:
    """The slope and its p value; 1 where t alone says that the slope is not shown."""
    n = len(points)
    x_mean, y_mean = (sum(p[k] for p in points) / n for k in (0, 1))
    sxx = sum((x - x_mean) ** 2 for x, _ in points)
    sxy = sum((x - x_mean) * (y - y_mean) for x, y in points)
    slope = sxy / sxx
    left = sum((y - y_mean - slope * (x - x_mean)) ** 2 for x, y in points)
    error = math.sqrt(left / (n - 2) / sxx)
    if error == 0:  # a perfect line leaves no spread to predict with
        return slope, 1.0
    t = abs(slope / error)
    if t < SHOWN_FROM:
        return slope, 1.0
    return slope, 2 * figures.t_cdf(-t, n - 2)


def _at_zero(points: list[tuple[float, float]], belief: Belief) -> Predictive:
    """The predictive where the driver's offset is 0, the present."""
    n = len(points)
    base = belief.mean if belief.weight else sum(y for _, y in points) / n
    rows = [(x, y - base) for x, y in points]
    sx, sy = sum(x for x, _ in rows), sum(y for _, y in rows)
    sxx, sxy = sum(x * x for x, _ in rows), sum(x * y for x, y in rows)
    weight = belief.weight + n
    determinant = weight * sxx - sx * sx
    level, slope = (sxx * sy - sx * sxy) / determinant, (weight * sxy - sx * sy) / determinant
    left = sum((y - level - slope * x) ** 2 for x, y in rows) + belief.weight * level**2
    shape, rate = belief.shape + (n - 1) / 2, belief.rate + left / 2
    spread = rate / shape * (1 + sxx / determinant)
    return Predictive(base + level, math.sqrt(spread), 2 * shape)
