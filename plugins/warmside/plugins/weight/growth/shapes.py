"""Shapes of a growth curve, in log mass: each gives ln f and its slopes by the parameters.

Sigmoid shapes are f = A G(u), u = (t - middle) / scale, with t in days and parameters
(ln A, middle, ln scale):

- logistic: G = 1 / (1 + e^-u);
- Gompertz: G = exp(-e^-u), which is A exp(-b2 b3^t) with b3 = e^(-1/scale), b2 = e^(middle/scale);
- von Bertalanffy for mass: G = (1 - e^-u)^3, for u above 0;
- von Bertalanffy for length: G = 1 - e^-u (also called monomolecular).

Sources: Gompertz 1825; von Bertalanffy 1957, Q Rev Biol 32:217-231; the forms as in Ricker 1979,
Fish Physiology 8:677-743 (from memory). Steady mass and steady percentage growth are the plain
alternatives, for an adult and for a young animal far from its bend.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from math import exp, expm1, log, log1p

from msgspec import Struct

Slopes = list[float]
_U_LIMIT = 500.0  # beyond it the shape is flat or nothing, and e^u nears the end of floats


class Shape(Struct, frozen=True):
    """A curve by name: its number of parameters and whether it ends in an adult mass A.

    `value(t, p)` gives (ln f, slopes) or None outside the domain; `starts(days, logs)` gives
    parameters from which the search may begin.
    """

    name: str
    count: int
    adult: bool
    value: Callable[[float, Sequence[float]], tuple[float, Slopes] | None]
    starts: Callable[[Sequence[float], Sequence[float]], list[tuple[float, ...]]]


class _Growth(Struct, frozen=True):
    """G(u): its log and the slope of the log, and u for a given G."""

    log_g: Callable[[float], float]
    slope: Callable[[float], float]
    u_of: Callable[[float], float]
    least_u: float = -_U_LIMIT


def _sigmoid(name: str, growth: _Growth) -> Shape:
    def value(t: float, p: Sequence[float]) -> tuple[float, Slopes] | None:
        log_a, middle, log_scale = p
        if abs(log_a) > 40 or abs(log_scale) > 25:
            return None
        scale = exp(log_scale)
        u = (t - middle) / scale
        if not growth.least_u < u < _U_LIMIT:
            return None
        slope = growth.slope(u)
        return log_a + growth.log_g(u), [1.0, -slope / scale, -slope * u]

    def starts(days: Sequence[float], logs: Sequence[float]) -> list[tuple[float, ...]]:
        found = (_straightened(days, logs, times, growth) for times in (1.05, 1.5, 4.0))
        return [start for start in found if start is not None]

    return Shape(name, 3, True, value, starts)


def _straightened(
    days: Sequence[float], logs: Sequence[float], times: float, growth: _Growth
) -> tuple[float, ...] | None:
    """A start: with A fixed at so many times the greatest mass, u is a straight line in t."""
    log_a = max(logs) + log(times)
    middle_u, rate = straight(days, [growth.u_of(exp(y - log_a)) for y in logs])
    if not rate > 0:
        return None
    start = -middle_u / rate
    if growth.least_u >= 0:  # this shape must begin before the first point
        start = min(start, days[0] - 1e-3 / rate)
    return log_a, start, -log(rate)


def straight(x: Sequence[float], y: Sequence[float]) -> tuple[float, float]:
    """Intercept and slope of the least-squares line; slope 0 where all x are one."""
    n = len(x)
    mean_x, mean_y = sum(x) / n, sum(y) / n
    sxx = sum((a - mean_x) ** 2 for a in x)
    sxy = sum((a - mean_x) * (b - mean_y) for a, b in zip(x, y, strict=True))
    slope = sxy / sxx if sxx else 0.0
    return mean_y - slope * mean_x, slope


def _steady_value(t: float, p: Sequence[float]) -> tuple[float, Slopes]:
    return p[0], [1.0]


def _even_value(t: float, p: Sequence[float]) -> tuple[float, Slopes]:
    return p[0] + p[1] * t, [1.0, t]


STEADY = Shape("steady", 1, False, _steady_value, lambda _, logs: [(sum(logs) / len(logs),)])
EVEN = Shape("even percentage", 2, False, _even_value, lambda d, logs: [straight(d, logs)])
LOGISTIC = _sigmoid(
    "logistic",
    _Growth(
        lambda u: -log1p(exp(-u)) if u > -30 else u,
        lambda u: 1 / (1 + exp(u)),
        lambda g: log(g / (1 - g)),
    ),
)
GOMPERTZ = _sigmoid(
    "Gompertz",
    _Growth(lambda u: -exp(-u), lambda u: exp(-u), lambda g: -log(-log(g)), -50.0),
)
BERTALANFFY_MASS = _sigmoid(
    "von Bertalanffy (mass)",
    _Growth(
        lambda u: 3 * log(-expm1(-u)),
        lambda u: 3 / expm1(u),
        lambda g: -log(1 - g ** (1 / 3)),
        0.0,
    ),
)
BERTALANFFY_LENGTH = _sigmoid(
    "von Bertalanffy (length)",
    _Growth(lambda u: log(-expm1(-u)), lambda u: 1 / expm1(u), lambda g: -log(1 - g), 0.0),
)
SHAPES = (STEADY, EVEN, LOGISTIC, GOMPERTZ, BERTALANFFY_MASS, BERTALANFFY_LENGTH)
