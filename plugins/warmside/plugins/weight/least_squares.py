"""Levenberg-Marquardt least squares for a few parameters, in plain Python.

Source: Marquardt DW 1963, J Soc Indust Appl Math 11:431-441, with the diagonal scaling given there.
A fit of a dozen points with three parameters takes about a millisecond.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass

Vector = list[float]
Matrix = list[list[float]]
Evaluate = Callable[[Sequence[float]], tuple[Vector, Matrix] | None]

_STEPS = 120
_STEP_TOLERANCE = 1e-11
_DAMPING_LIMIT = 1e14


@dataclass(frozen=True, slots=True)
class Fit:
    """Parameters at the least sum of squares `rss`.

    `spread` is the inverse of JtJ (times sigma squared, the covariance), None where singular;
    `converged` False where the search ran out of steps or against the edge of the domain.
    """

    parameters: tuple[float, ...]
    rss: float
    spread: tuple[tuple[float, ...], ...] | None
    converged: bool


def fit(evaluate: Evaluate, start: Sequence[float]) -> Fit | None:
    """The least-squares fit from a start; None where the start is outside the domain.

    `evaluate` gives residuals (observed less model), shape n, and the model's derivatives,
    shape n by p, or None outside the domain.
    """
    here = evaluate(start)
    if here is None:
        return None
    at, rss = list(start), _squares(here[0])
    normal, pull = _normal_equations(*here)
    damping, converged = 1e-3, False
    for _ in range(_STEPS):
        step = solve(_damped(normal, damping), pull)
        trial = None if step is None else [a + d for a, d in zip(at, step, strict=True)]
        there = None if trial is None else evaluate(trial)
        if step is None or trial is None or there is None or not _squares(there[0]) <= rss:
            damping *= 8
            if damping > _DAMPING_LIMIT:
                converged = _flat(normal, pull, rss)
                break
            continue
        small = all(abs(d) <= _STEP_TOLERANCE * (1 + abs(a)) for a, d in zip(at, step, strict=True))
        at, rss = trial, _squares(there[0])
        normal, pull = _normal_equations(*there)
        damping = max(damping / 10, 1e-12)
        if small:
            converged = True
            break
    spread = inverse(normal)
    return Fit(tuple(at), rss, spread, converged and spread is not None)


def solve(matrix: Matrix, right: Vector) -> Vector | None:
    """The solution of a small linear system by elimination with pivots; None where singular."""
    n = len(right)
    rows = [[*row, value] for row, value in zip(matrix, right, strict=True)]
    for i in range(n):
        pivot = max(range(i, n), key=lambda k: abs(rows[k][i]))
        rows[i], rows[pivot] = rows[pivot], rows[i]
        if not abs(rows[i][i]) > 1e-300:
            return None
        for k in range(i + 1, n):
            part = rows[k][i] / rows[i][i]
            rows[k] = [a - part * b for a, b in zip(rows[k], rows[i], strict=True)]
    result = [0.0] * n
    for i in reversed(range(n)):
        known = sum(rows[i][k] * result[k] for k in range(i + 1, n))
        result[i] = (rows[i][n] - known) / rows[i][i]
    return result


def inverse(matrix: Matrix) -> tuple[tuple[float, ...], ...] | None:
    """The inverse of a small symmetric positive matrix; None where singular to working digits."""
    n = len(matrix)
    scale = [matrix[i][i] ** 0.5 for i in range(n)]
    if not all(s > 0 for s in scale):
        return None
    scaled = [[matrix[i][k] / scale[i] / scale[k] for k in range(n)] for i in range(n)]
    columns = [solve(scaled, [float(i == k) for i in range(n)]) for k in range(n)]
    if any(c is None or max(map(abs, c)) > 1e13 for c in columns):
        return None
    return tuple(
        tuple(c[i] / scale[i] / scale[k] for k, c in enumerate(columns) if c is not None)
        for i in range(n)
    )


def _squares(residuals: Vector) -> float:
    return sum(r * r for r in residuals)


def _normal_equations(residuals: Vector, slopes: Matrix) -> tuple[Matrix, Vector]:
    columns = list(zip(*slopes, strict=True))
    normal = [[sum(map(float.__mul__, a, b)) for b in columns] for a in columns]
    return normal, [sum(map(float.__mul__, a, residuals)) for a in columns]


def _damped(normal: Matrix, damping: float) -> Matrix:
    return [
        [v * (1 + damping) if i == k else v for k, v in enumerate(row)]
        for i, row in enumerate(normal)
    ]


def _flat(normal: Matrix, pull: Vector, rss: float) -> bool:
    """Whether the residuals are at right angles to every derivative, to rounding."""
    return all(abs(g) <= 1e-7 * (normal[i][i] * rss) ** 0.5 + 1e-290 for i, g in enumerate(pull))
