"""Non-linear least squares for a few parameters, by SciPy's Levenberg-Marquardt (MINPACK).

SciPy and NumPy are imported on the first call: half a second, so the morning round does not ask.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from typing import TYPE_CHECKING, Any

from msgspec import Struct

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import NDArray

    Floats = NDArray[np.floating[Any]]

Vector = list[float]
Matrix = list[list[float]]
Evaluate = Callable[[Sequence[float]], tuple[Vector, Matrix] | None]

_TOLERANCE = 1e-12
_NEAR, _ROUNDING = 1e-3, 1e-9  # a step so small beside the standard error, beside the parameter
_OUTSIDE = 1e12  # residuals outside the domain: no step is taken there
_SINGULAR = 1e13


class LeastSquares(Struct, frozen=True):
    """Parameters at the least sum of squares `rss`.

    `spread` is the inverse of JtJ (times sigma squared, the covariance), None where singular;
    `converged` False where the search ran out of steps or against the edge of the domain.
    """

    parameters: tuple[float, ...]
    rss: float
    spread: tuple[tuple[float, ...], ...] | None
    converged: bool


def least_squares(evaluate: Evaluate, start: Sequence[float]) -> LeastSquares | None:
    """The least-squares fit from a start; None where the start is outside the domain.

    `evaluate` gives residuals (observed less model), shape n, and the model's derivatives,
    shape n by p, or None outside the domain. At least as many residuals as parameters.
    """
    here = evaluate(start)
    if here is None:
        return None
    import numpy as np
    from scipy.optimize import least_squares as minimise

    count = len(here[0])
    kept: dict[bytes, tuple[Vector, Matrix] | None] = {}

    def at(p: Floats) -> tuple[Vector, Matrix] | None:
        if p.tobytes() not in kept:  # SciPy asks for residuals and derivatives apart
            kept.clear()
            kept[p.tobytes()] = evaluate(p.tolist())
        return kept[p.tobytes()]

    def residuals(p: Floats) -> Floats:
        found = at(p)
        return np.full(count, _OUTSIDE) if found is None else np.asarray(found[0])

    def slopes(p: Floats) -> Floats:
        found = at(p)
        return np.zeros((count, len(p))) if found is None else -np.asarray(found[1])

    tolerances = dict.fromkeys(("ftol", "xtol", "gtol"), _TOLERANCE)
    found = minimise(residuals, start, slopes, method="lm", x_scale="jac", **tolerances)
    spread = inverse(found.jac.T @ found.jac)
    settled = found.status > 0 and spread is not None and _at_rest(found, spread)
    return LeastSquares(tuple(found.x.tolist()), 2 * float(found.cost), spread, settled)


def inverse(matrix: Floats) -> tuple[tuple[float, ...], ...] | None:
    """The inverse of a small symmetric positive matrix; None where singular to working digits."""
    import numpy as np

    scale = np.sqrt(np.diag(matrix))
    if not np.all(scale > 0):
        return None
    try:
        found = np.linalg.inv(matrix / np.outer(scale, scale))
    except np.linalg.LinAlgError:
        return None
    if not np.all(np.abs(found) <= _SINGULAR):
        return None
    return tuple(map(tuple, (found / np.outer(scale, scale)).tolist()))


def _at_rest(found: Any, spread: tuple[tuple[float, ...], ...]) -> bool:
    """Whether the next step would be nothing beside each parameter or its standard error.

    Against the edge of the domain the search stops, too, but with a long step before it.
    """
    import numpy as np

    step = np.abs(np.asarray(spread) @ (found.jac.T @ found.fun))
    free = max(len(found.fun) - len(found.x), 1)
    errors = np.sqrt(2 * found.cost / free * np.diag(np.asarray(spread)))
    return bool(np.all((step <= _NEAR * errors) | (step <= _ROUNDING * (1 + np.abs(found.x)))))
