"""The course of the last weighings: level, slope and curvature, each with how sure it is.

Fitted to log mass, weighted towards the last weighing, are a level and curves of Gompertz (1825),
whose slope in log mass falls off exponentially: y = c + b G(t), G(t) = (1 - exp(-k t)) / k, with t
in days from the last weighing and k one of a few rates (0 is growth at an even percentage). Where
the data leave k open, all count, each by its likelihood (weights of Akaike 1978, Bayesian Analysis
of the Minimum AIC Procedure, from memory).
"""

from __future__ import annotations

from collections.abc import Sequence
from itertools import pairwise
from math import exp, expm1, log, sqrt

from msgspec import Struct

from warmside.plugins.weight.course.noise import WANDER, noise_of
from warmside.plugins.weight.course.series import Weighings, middle

RATES = (0.0015, 0.003, 0.006, 0.010, 0.015)
"""Fall of the slope a day; 0.003 is about a corn snake's, 0.008 a leopard gecko's growth."""
_CURVED_FROM = 0.0005  # below 3 % in two months a curve is as good as its line
MOST = 12
_NEAR_DAYS = 45.0  # weights fall to 1/e over so many days, or four usual gaps where that is more
_NEAR_GAPS = 4.0
_FADING_DAYS = 10.0  # what a weighing differs from the curve is gut and bladder, and fades
_STEEPEST = 0.02  # 2 % a day: slopes are drawn towards 0 as by one weighing of that slope
_PACE = 0.3  # an animal's growth runs so much faster or slower for weeks (a part of the slope)
_TURN = 0.0003  # a slope that nobody sees yet, a day: the beginning of a fast, of growth
_UNKNOWN = 0.00075  # the same where less than two weeks were weighed
_LEAST_SPAN_DAYS = 14.0
_ODD = 6.0  # times the noise: a weighing so far from neighbours that agree is not used
_OWN_DAY = 2.5  # on its own day a weighing is off by no more than so many times the noise
_WIDEST = 1.5  # of log mass
_UNSURE = 1.5  # a spread seen in few weighings is unsure: near what Student's t makes of it


class Curve(Struct, frozen=True):
    """One model with its weight: level, slope and variances at the last weighing, in log mass.

    `scatter` is the variance of weighings about it, `variance` what it is for one to come.
    """

    rate: float
    slope: float
    level: float
    slope_variance: float
    scatter: float
    variance: float
    weight: float


class LocalFit(Struct, frozen=True):
    """The last weighings as curves; `day` is that of the last, `last` its log mass.

    `of` are the weighings that it was fitted to, `used` those but odd ones.
    """

    day: float
    last: float
    noise: float
    curves: tuple[Curve, ...]
    spread_known: bool
    used: Weighings
    of: tuple[int, ...]

    def at(self, days_ahead: float) -> tuple[float, float]:
        """Log mass so many days after the last weighing, and its standard deviation.

        On its own day a weighing is what it weighs, give or take the noise.
        """
        fading = exp(-days_ahead / _FADING_DAYS)
        turn = _TURN if self.spread_known else _UNKNOWN
        found = [self._one(c, days_ahead, fading, turn) for c in self.curves]
        mean = sum(w * m for w, m, _ in found)
        variance = sum(w * (v + (m - mean) ** 2) for w, m, v in found)
        return mean, min(sqrt(variance), _WIDEST)

    def rise(self, days_ahead: float) -> float:
        """How far log mass rises in so many days after the last weighing."""
        return sum(c.weight * c.slope * curved(c.rate, days_ahead) for c in self.curves)

    def _one(
        self, c: Curve, ahead: float, fading: float, turn: float
    ) -> tuple[float, float, float]:
        way = curved(c.rate, ahead)
        rise = max(min(c.slope * way, _WIDEST), -_WIDEST)
        mean = c.level + (self.last - c.level) * fading + rise
        drift = (c.slope_variance + (_PACE * c.slope) ** 2) * way * way + (turn * ahead) ** 2
        own = self._own_day(c) if ahead < 1 else c.variance
        return c.weight, mean, own + drift

    def _own_day(self, c: Curve) -> float:
        """Of the scatter about a level a part is the body's own, and no error of a weighing."""
        level = abs(c.slope) < _CURVED_FROM
        scatter = max(c.scatter - WANDER**2, self.noise**2) if level else c.scatter
        return min(scatter, (_OWN_DAY * self.noise) ** 2)


def curved(rate: float, days: float) -> float:
    """G(days): the days themselves where the rate is 0."""
    return -expm1(-rate * days) / rate if rate else days


def fitted(those: Weighings) -> LocalFit:
    """The curves of the last weighings, at least one; odd ones among them are not used."""
    recent = _without_odd(those[-MOST:])
    last = recent.days[-1]
    logs = [log(mass) for mass in recent.masses_g]
    noise = noise_of(recent)
    weights = _weights(recent.days)
    away = [day - last for day in recent.days]
    found = [_level(_Points(weights, away, logs), noise)]
    if len(recent) > 2:
        found.append(_line(_Points(weights, away, logs), 0.0, noise))
        for rate in RATES if abs(found[1][0][1]) >= _CURVED_FROM else ():
            x = [curved(rate, days) for days in away]
            found.append(_line(_Points(weights, x, logs), rate, noise))
    best = max(score for _, score in found)
    shares = [exp(score - best) for _, score in found]
    total = sum(shares)
    curves = tuple(Curve(*c, share / total) for (c, _), share in zip(found, shares, strict=True))
    known = len(recent) > 2 and last - recent.days[0] >= _LEAST_SPAN_DAYS
    return LocalFit(last, logs[-1], noise, curves, known, recent, those[-MOST:].events)


class _Points(Struct, frozen=True):
    """Weights that count the last weighing as 1, places on the curve, and log masses."""

    weights: Sequence[float]
    x: Sequence[float]
    y: Sequence[float]

    @property
    def squares(self) -> float:
        """The squared weights; total ** 2 / squares are so many of weight 1 (Kish 1965)."""
        return sum([w * w for w in self.weights])


_Fit = tuple[float, float, float, float, float, float]


def _level(points: _Points, noise: float) -> tuple[_Fit, float]:
    total = sum(points.weights)
    level = sum(w * y for w, y in zip(points.weights, points.y, strict=True)) / total
    return _scored(points, (0.0, 0.0, level), 0.0, noise)


def _line(points: _Points, rate: float, noise: float) -> tuple[_Fit, float]:
    """The weighted line through the places of a curve."""
    total = sum(points.weights)
    rows = list(zip(points.weights, points.x, points.y, strict=True))
    x_mean = sum([w * x for w, x, _ in rows]) / total
    y_mean = sum([w * y for w, _, y in rows]) / total
    spread = sum([w * (x - x_mean) ** 2 for w, x, _ in rows]) + (noise / _STEEPEST) ** 2
    slope = sum([w * (x - x_mean) * (y - y_mean) for w, x, y in rows]) / spread
    return _scored(points, (rate, slope, y_mean - slope * x_mean), 1 / spread, noise)


def _scored(
    points: _Points, fit: tuple[float, float, float], unsure: float, noise: float
) -> tuple[_Fit, float]:
    """The fit with its variances, and its log likelihood less its parameters."""
    _, slope, level = fit
    count = 2 if unsure else 1
    far = 6 * noise  # a weighing further off counts as so far
    rows = zip(points.weights, points.x, points.y, strict=True)
    squares = sum([w * min(abs(y - level - slope * x), far) ** 2 for w, x, y in rows])
    total = sum(points.weights)
    mean_square, effective = squares / total, total**2 / points.squares
    free = max(effective - count, 1.0)
    scatter = max(mean_square * effective / free, noise**2)
    seen = max(mean_square * effective / free * (1 + _UNSURE / free), noise**2)
    variance = seen * (1 + 1 / effective)  # of a weighing, and of the level
    score = -effective / 2 * log(max(mean_square, noise**2 / 2)) - count
    return (*fit, unsure * variance, scatter, variance), score


def _weights(days: Sequence[float]) -> list[float]:
    gaps = [b - a for a, b in pairwise(days)]
    near = max(_NEAR_DAYS, _NEAR_GAPS * middle(gaps) if gaps else 0.0)
    return [exp((day - days[-1]) / near) for day in days]


def _without_odd(those: Weighings) -> Weighings:
    """Without those far from neighbours on both sides that agree with each other."""
    if len(those) < 5:
        return those
    logs = [log(mass) for mass in those.masses_g]
    limit = _ODD * noise_of(those)
    odd = []
    for i in range(1, len(logs) - 1):
        around = [logs[k] for k in (i - 2, i - 1, i + 1, i + 2) if 0 <= k < len(logs)]
        if max(around) - min(around) < limit < abs(logs[i] - middle(around)):
            odd.append(those.events[i])
    return those.without(odd)
