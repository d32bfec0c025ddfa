"""One growth shape fitted to one animal's masses, with its AICc and the spread of its parameters.

AICc: Hurvich & Tsai 1989, Biometrika 76:297-307: n ln(RSS/n) + 2k + 2k(k+1)/(n - k - 1), where k
counts the residual spread too. Prediction spread by the delta method.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from math import exp, inf, log, sqrt

from msgspec import Struct

from warmside.api import figures
from warmside.plugins.weight.growth.shapes import Shape

Evaluated = tuple[list[float], list[list[float]]]
_EXACT = 1e-8  # relative residuals below this are rounding: all such fits count as equally good


class CurveFit(Struct, frozen=True):
    """A shape at its best parameters; days count from `origin`, `sigma` is in log mass or in g.

    `sigma` is None where there are no more points than parameters.
    """

    shape: Shape
    fit: figures.LeastSquares
    origin: float
    points: int
    sigma: float | None
    aicc: float

    @property
    def rss(self) -> float:
        """The sum of squared residuals (squared logs, or g squared for a raw fit)."""
        return self.fit.rss

    @property
    def df(self) -> int:
        """Degrees of freedom: points less parameters."""
        return self.points - self.shape.count

    def log_at(self, day: float) -> tuple[float, float] | None:
        """Log mass on a day and its standard error as a curve; None outside the domain."""
        here = self.shape.value(day - self.origin, self.fit.parameters)
        if here is None or self.sigma is None or self.fit.spread is None:
            return None
        value, slopes = here
        spread = self.fit.spread
        variance = sum(
            a * spread[i][k] * b for i, a in enumerate(slopes) for k, b in enumerate(slopes)
        )
        return value, self.sigma * sqrt(max(variance, 0.0))

    def standard_error(self, index: int) -> float:
        """The standard error of one parameter; infinite where the data do not fix it."""
        if self.sigma is None or self.fit.spread is None:
            return inf
        return self.sigma * sqrt(self.fit.spread[index][index])


def fit_shape(
    shape: Shape,
    days: Sequence[float],
    values: Sequence[float],
    *,
    weights: Sequence[float] | None = None,
    raw: bool = False,
) -> CurveFit | None:
    """The best fit from several starts, or None where none stays in the domain.

    Residuals are of log mass, so that they count in percent; `raw` takes them in the values' own
    unit. Days must rise and values be above zero.
    """
    origin = days[0]
    t = [day - origin for day in days]
    logs = [log(v) for v in values]
    roots = [1.0] * len(t) if weights is None else [sqrt(w) for w in weights]
    evaluate = _evaluator(shape, t, values if raw else logs, roots, raw=raw)
    tried = (figures.least_squares(evaluate, start) for start in shape.starts(t, logs))
    found = [one for one in tried if one is not None]
    if not found:
        return None
    best = min(found, key=lambda one: (not one.converged, one.rss))
    return _measured(shape, best, origin, roots)


def _measured(
    shape: Shape, best: figures.LeastSquares, origin: float, roots: Sequence[float]
) -> CurveFit:
    n = sum(1 for r in roots if r > 0)
    df = n - shape.count
    sigma = sqrt(best.rss / df) if df > 0 else None
    return CurveFit(shape, best, origin, n, sigma, _aicc(best.rss, n, shape.count + 1))


def _aicc(rss: float, n: int, k: int) -> float:
    if n - k - 1 <= 0:
        return inf
    return n * log(max(rss / n, _EXACT**2)) + 2 * k + 2 * k * (k + 1) / (n - k - 1)


def _evaluator(
    shape: Shape,
    days: Sequence[float],
    wanted: Sequence[float],
    roots: Sequence[float],
    *,
    raw: bool,
) -> Callable[[Sequence[float]], Evaluated | None]:
    def evaluate(p: Sequence[float]) -> Evaluated | None:
        residuals: list[float] = []
        rows: list[list[float]] = []
        for t, y, root in zip(days, wanted, roots, strict=True):
            here = shape.value(t, p)
            if here is None:
                return None
            value, slopes = here
            factor = root
            if raw:
                value = exp(min(value, 300.0))
                factor = root * value
            residuals.append(root * (y - value))
            rows.append([factor * slope for slope in slopes])
        return residuals, rows

    return evaluate
