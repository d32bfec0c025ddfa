"""The penalised LMS likelihood and its maximum, with NumPy.

Per weighing, up to a constant: L ln(y/M) - ln S - z^2/2 (Cole & Green 1992, eq. 4), with the
derivatives and expected information of their section 3, written for L, ln M and ln S. Each of the
three is a basis times coefficients with a quadratic penalty. The penalties' weights come from the
data by the Fellner-Schall update (Wood & Fasiolo 2017, Biometrics 73:1071-1081).
"""

from __future__ import annotations

from itertools import pairwise
from typing import TYPE_CHECKING, Any

from msgspec import Struct

from warmside.api import BadInput

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import NDArray

    Floats = NDArray[np.floating[Any]]

_ROUNDS = 60
_NEWTON = 50
_HALVINGS = 30
_LIGHTEST, _HEAVIEST = 1e-6, 1e8


class Term(Struct, frozen=True):
    """One of L, ln M, ln S: its basis, shape (n, k), and its penalty, shape (k, k), of rank r."""

    basis: Floats
    penalty: Floats
    rank: int


class Optimum(Struct, frozen=True):
    """Coefficients of L, ln M, ln S at the maximum.

    `log_likelihood` is without penalty, without the constant; `information` is the penalised
    expected information, shape (p, p) over all coefficients; `scores`, shape (n, p), are the
    derivatives of each weighing's likelihood; `df` the effective parameters of the three.
    """

    coefficients: tuple[Floats, Floats, Floats]
    log_likelihood: float
    information: Floats
    scores: Floats
    df: tuple[float, float, float]


def maximise(masses: Floats, terms: tuple[Term, Term, Term], start: Floats) -> Optimum:
    """The maximum of the penalised likelihood, from coefficients (L, ln M, ln S in one row).

    BadInput where it does not settle, which means too few or too odd weighings.
    """
    import numpy as np

    log_y = np.log(masses)
    weights = [10.0 if term.rank else 0.0 for term in terms]
    beta = start.copy()
    for _ in range(_ROUNDS):
        beta, information = _newton(log_y, terms, weights, beta)
        covariance = np.linalg.inv(information)
        renewed = _renewed(terms, weights, beta, covariance)
        settled = np.allclose(np.log1p(renewed), np.log1p(weights), rtol=0, atol=0.02)
        weights = renewed
        if settled:
            break
    beta, information = _newton(log_y, terms, weights, beta)
    value, scores, _ = _likelihood(log_y, terms, beta)
    return Optimum(
        _split(terms, beta),
        value,
        information,
        scores,
        _effective(terms, weights, np.linalg.inv(information)),
    )


def _newton(
    log_y: Floats, terms: tuple[Term, Term, Term], weights: list[float], beta: Floats
) -> tuple[Floats, Floats]:
    """Fisher scoring with halved steps: coefficients and penalised information."""
    import numpy as np

    penalty = _penalty(terms, weights)
    value, scores, information = _likelihood(log_y, terms, beta)
    value -= _roughness(beta, penalty)
    for _ in range(_NEWTON):
        step = np.linalg.solve(information + penalty, scores.sum(axis=0) - penalty @ beta)
        for _ in range(_HALVINGS):
            trial = beta + step
            new, new_scores, new_information = _likelihood(log_y, terms, trial)
            new -= _roughness(trial, penalty)
            if new >= value - 1e-12 * abs(value):
                break
            step = step / 2
        else:
            break
        beta, scores, information = trial, new_scores, new_information
        gained, value = new - value, new
        if gained <= 1e-10 * (1 + abs(value)):
            break
    if not np.isfinite(value):
        raise BadInput("these weighings do not settle on a curve; check them for slips")
    return beta, information + penalty


def _roughness(beta: Floats, penalty: Floats) -> float:
    return float(beta @ penalty @ beta) / 2


def _likelihood(
    log_y: Floats, terms: tuple[Term, Term, Term], beta: Floats
) -> tuple[float, Floats, Floats]:
    """The log likelihood, each weighing's derivatives (n, p) and the expected information."""
    import numpy as np

    with np.errstate(over="ignore", invalid="ignore", divide="ignore"):
        l, log_m, log_s = (  # noqa: E741
            t.basis @ b for t, b in zip(terms, _split(terms, beta), strict=True)
        )
        s = np.exp(log_s)
        ratio = log_y - log_m
        x = ratio / s
        w = l * ratio
        z = np.where(np.abs(w) > 1e-8, np.expm1(w) / np.where(w == 0, 1, w), 1 + w / 2) * x
        value = float(np.sum(l * ratio - log_s - z * z / 2))
        excess = z * z - 1
        by_l = z * _z_less_x_over_l(w, ratio, x) - ratio * excess
        scores = np.hstack(
            [d[:, None] * t.basis for d, t in zip((by_l, z / s + l * excess, excess), terms,
                                                  strict=True)]
        )  # fmt: skip
    if not np.isfinite(value) or not np.all(np.isfinite(scores)):
        return -np.inf, scores, np.eye(len(beta))
    return value, scores, _information(terms, l, s)


def _z_less_x_over_l(w: Floats, ratio: Floats, x: Floats) -> Floats:
    """(z - x) / L, which is x ratio (e^w - 1 - w) / w^2, by its series near w = 0."""
    import numpy as np

    near = np.abs(w) < 1e-3
    safe = np.where(near, 1.0, w)
    part = np.where(near, 0.5 + w / 6 + w * w / 24, (np.expm1(safe) - safe) / safe**2)
    return x * ratio * part


def _information(terms: tuple[Term, Term, Term], l: Floats, s: Floats) -> Floats:  # noqa: E741
    import numpy as np

    s2 = s * s
    flat = np.ones_like(s)
    w = [
        [1.75 * s2, -0.5 * flat, l * s2],
        [-0.5 * flat, (1 + 2 * l * l * s2) / s2, 2 * l],
        [l * s2, 2 * l, 2 * flat],
    ]
    return np.block(
        [
            [a.basis.T @ (w[i][k][:, None] * b.basis) for k, b in enumerate(terms)]
            for i, a in enumerate(terms)
        ]
    )


def _renewed(
    terms: tuple[Term, Term, Term], weights: list[float], beta: Floats, covariance: Floats
) -> list[float]:
    import numpy as np

    found = []
    for term, weight, b, part in zip(
        terms, weights, _split(terms, beta), _slices(terms), strict=True
    ):
        if not term.rank:
            found.append(0.0)
            continue
        roughness = float(b @ term.penalty @ b)
        free = term.rank - weight * float(np.trace(covariance[part, part] @ term.penalty))
        new = weight * max(free, 1e-9) / max(weight * roughness, 1e-12)
        found.append(float(np.clip(new, _LIGHTEST, _HEAVIEST)))
    return found


def _effective(
    terms: tuple[Term, Term, Term], weights: list[float], covariance: Floats
) -> tuple[float, float, float]:
    import numpy as np

    df = [
        term.basis.shape[1] - weight * float(np.trace(covariance[part, part] @ term.penalty))
        for term, weight, part in zip(terms, weights, _slices(terms), strict=True)
    ]
    return df[0], df[1], df[2]


def _penalty(terms: tuple[Term, Term, Term], weights: list[float]) -> Floats:
    import numpy as np
    from scipy.linalg import block_diag

    blocks = (w * t.penalty for w, t in zip(weights, terms, strict=True))
    return np.asarray(block_diag(*blocks))


def _slices(terms: tuple[Term, Term, Term]) -> list[slice]:
    ends = [0]
    for term in terms:
        ends.append(ends[-1] + term.basis.shape[1])
    return [slice(a, b) for a, b in pairwise(ends)]


def _split(terms: tuple[Term, Term, Term], beta: Floats) -> tuple[Floats, Floats, Floats]:
    first, second, third = (beta[part] for part in _slices(terms))
    return first, second, third
