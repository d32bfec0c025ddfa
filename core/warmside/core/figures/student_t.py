"""Student's t distribution with the standard library only, sound far out in the tails.

Our own: the morning round asks it whether a shed is overdue, where SciPy would cost 0.3 s to
import, and SciPy has no quantile for a chance given as its logarithm. Tails are worked out as
logarithms, so that a chance of 1e-400 is still a number. The tail is the regularised incomplete
beta function (NIST DLMF 8.17.22, continued fraction by Lentz's method).
"""

from __future__ import annotations

import math
from functools import cache, lru_cache

_TINY = 1e-300
_CLOSE = 1e-15
_LOG_HALF = -math.log(2.0)


def t_cdf(t: float, df: float) -> float:
    """P(T <= t) for `df` degrees of freedom (any number from 1 up)."""
    return math.exp(log_t_tail(-t, df))


@cache  # few degrees of freedom, asked for many animals
def t_quantile(p: float, df: float) -> float:
    """The t with P(T <= t) = p, for p between 0 and 1, both left out."""
    return -log_t_quantile(math.log(p), df)


def log_t_tail(t: float, df: float) -> float:
    """The natural logarithm of P(T > t)."""
    if t < 0:
        return math.log1p(-math.exp(log_t_tail(-t, df)))
    square = t * t
    return _LOG_HALF + _log_beta_ratio(df / (df + square), square / (df + square), df / 2, 0.5)


@lru_cache(maxsize=1024)  # the round asks the same for several animals of a species
def log_t_quantile(log_p: float, df: float) -> float:
    """The t with log P(T > t) = `log_p` (below 0), by Newton's method on asinh t."""
    if log_p > _LOG_HALF:
        return -log_t_quantile(math.log(-math.expm1(log_p)), df)
    u = 0.0
    for _ in range(100):
        t = math.sinh(u)
        tail = log_t_tail(t, df)
        slope = math.exp(_log_density(t, df) - tail) * math.cosh(u)
        step = max(-2.0, min(2.0, (tail - log_p) / slope))
        u += step
        if abs(step) <= _CLOSE * (1.0 + abs(u)):
            break
    return math.sinh(u)


def _log_density(t: float, df: float) -> float:
    front = math.lgamma((df + 1) / 2) - math.lgamma(df / 2) - math.log(df * math.pi) / 2
    return front - (df + 1) / 2 * math.log1p(t * t / df)


def _log_beta_ratio(x: float, y: float, a: float, b: float) -> float:
    """log I_x(a, b), where y = 1 - x is given apart because it may be tiny."""
    if x <= 0.0:
        return -math.inf
    if y <= 0.0:
        return 0.0
    front = a * math.log(x) + b * math.log(y)
    front += math.lgamma(a + b) - math.lgamma(a) - math.lgamma(b)
    if x < (a + 1) / (a + b + 2):
        return front + math.log(_fraction(x, a, b) / a)
    return math.log1p(-math.exp(front) * _fraction(y, b, a) / b)


def _fraction(x: float, a: float, b: float) -> float:
    c = 1.0
    d = 1.0 / _nonzero(1.0 - (a + b) * x / (a + 1))
    value = d
    for m in range(1, 1000):
        even = m * (b - m) * x / ((a + 2 * m - 1) * (a + 2 * m))
        odd = -(a + m) * (a + b + m) * x / ((a + 2 * m) * (a + 2 * m + 1))
        for term in (even, odd):
            d = 1.0 / _nonzero(1.0 + term * d)
            c = _nonzero(1.0 + term / c)
            value *= c * d
        if abs(c * d - 1.0) < _CLOSE:
            break
    return value


def _nonzero(value: float) -> float:
    return value if abs(value) > _TINY else _TINY
