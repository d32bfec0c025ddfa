"""A growth reference from pooled weighings: L, M and S as smooth curves of age.

Penalised LMS after Cole & Green 1992, with cubic P-splines (Eilers & Marx 1996, Statistical Science
11:89-121) over the cube root of age, since young animals change fastest (the WHO raised age to
0.35 for weight, from memory). The uncertainty is the wider of the smoothing spline's own and one
that counts animals instead of weighings (clustered sandwich), for many weighings of few animals say
little about others. In drawings from the WHO 2006 table, one weighing an animal, the nominal 95 %
ranges held the truth at 93 % of ages with 300 weighings and 95 % with 4000; in drawings of 25
animals that kept their own level, weighed 40 times each, the median's range held it at 86 % only.
"""

from __future__ import annotations

from collections.abc import Hashable, Sequence
from typing import TYPE_CHECKING, Any

from msgspec import Struct

from warmside.api import BadInput
from warmside.plugins.weight.lms.lms import LmsCurve, z_of_centile

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import NDArray

    from warmside.plugins.weight.lms.likelihood import Optimum, Term

    Floats = NDArray[np.floating[Any]]

MIN_ANIMALS = 20
MIN_WEIGHINGS = 200
MIN_AGES = 10
LINES = (5.0, 50.0, 95.0)
_POINTS = 60
_INTERVALS = (3, 18, 6)  # pieces of the splines of L, ln M and ln S
_DEGREE = 3


class CentileLine(Struct, frozen=True):
    """A centile over the curve's ages, in g, with the 95 % range of where it may truly lie."""

    centile: float
    mass_g: tuple[float, ...]
    low_g: tuple[float, ...]
    high_g: tuple[float, ...]


class LmsFit(Struct, frozen=True):
    """The fitted curve, its 5th, 50th and 95th centile with their ranges, and what it rests on.

    `df` are the effective parameters of L, M and S.
    """

    curve: LmsCurve
    lines: tuple[CentileLine, ...]
    weighings: int
    animals: int
    df: tuple[float, float, float]


def fit_lms(
    ages_days: Sequence[float], masses_g: Sequence[float], animals: Sequence[Hashable]
) -> LmsFit:
    """The fit to pooled weighings of one sex: age, mass and animal of each.

    BadInput with fewer than MIN_WEIGHINGS weighings of MIN_ANIMALS animals at MIN_AGES ages (says
    how many are missing), before hatching, or with a mass not above zero. With the least number
    allowed the outer centiles are uncertain by about a third of a standard deviation.
    """
    _check(ages_days, masses_g, animals)
    import numpy as np

    from warmside.plugins.weight.lms.likelihood import maximise

    ages, masses = np.asarray(ages_days, float), np.asarray(masses_g, float)
    first, last = float(ages.min()), float(ages.max())
    terms = _terms(_scaled(ages, first, last))
    found = maximise(masses, terms, _start(np.log(masses), terms))
    grid = _grid(first, last)
    bases = [term.basis for term in _terms(_scaled(grid, first, last))]
    l, log_m, log_s = (b @ c for b, c in zip(bases, found.coefficients, strict=True))  # noqa: E741
    covariances = (np.linalg.inv(found.information), _clustered(found, animals))
    curve = LmsCurve(*(tuple(map(float, c)) for c in (grid, l, np.exp(log_m), np.exp(log_s))))
    lines = tuple(_line(c, l, log_m, log_s, bases, covariances) for c in LINES)
    return LmsFit(curve, lines, len(masses), len(set(animals)), found.df)


def _check(ages: Sequence[float], masses: Sequence[float], animals: Sequence[Hashable]) -> None:
    have = (len(masses), len(set(animals)), len(set(ages)))
    need = (MIN_WEIGHINGS, MIN_ANIMALS, MIN_AGES)
    if any(a < b for a, b in zip(have, need, strict=True)):
        missing = [max(b - a, 0) for a, b in zip(have, need, strict=True)]
        raise BadInput(
            f"{have[0]} weighings of {have[1]} animals at {have[2]} ages; a reference needs "
            f"{need[0]} of {need[1]} at {need[2]}: gather {missing[0]} weighings, {missing[1]} "
            f"animals and {missing[2]} ages more"
        )
    for age, mass in zip(ages, masses, strict=True):
        if not age >= 0:
            raise BadInput(f"age of {age:g} days is before hatching; correct it")
        if not 0 < mass < 1e9:
            raise BadInput(f"mass of {mass:g} g cannot be; give masses above zero")


def _scaled(ages: Floats, first: float, last: float) -> Floats:
    import numpy as np

    low, high = np.cbrt(first), np.cbrt(last)
    return np.asarray(np.clip((np.cbrt(ages) - low) / (high - low), 0.0, 1.0))


def _grid(first: float, last: float) -> Floats:
    """Ages for the table: even in the cube root, whole days inside."""
    import numpy as np

    even = np.linspace(np.cbrt(first), np.cbrt(last), _POINTS) ** 3
    inner = np.round(even[1:-1])
    inside = (inner > first) & (inner < last)
    return np.unique(np.concatenate([[first], inner[inside], [last]]))


def _terms(x: Floats) -> tuple[Term, Term, Term]:
    from warmside.plugins.weight.lms.likelihood import Term

    def term(intervals: int) -> Term:
        import numpy as np

        basis = _basis(x, intervals)
        size = basis.shape[1]
        bend = np.diff(np.eye(size), n=2, axis=0)
        return Term(basis, bend.T @ bend, size - 2)

    return term(_INTERVALS[0]), term(_INTERVALS[1]), term(_INTERVALS[2])


def _basis(x: Floats, intervals: int) -> Floats:
    """Cubic B-splines on [0, 1] with even knots, shape (n, intervals + 3); rows sum to one."""
    import numpy as np
    from scipy.interpolate import BSpline

    knots = np.arange(-_DEGREE, intervals + _DEGREE + 1) / intervals
    inside = np.minimum(x, 1 - 1e-12)
    return np.asarray(BSpline.design_matrix(inside, knots, _DEGREE).toarray())


def _start(log_y: Floats, terms: tuple[Term, Term, Term]) -> Floats:
    """L of zero, M by penalised least squares, S even."""
    import numpy as np

    middle = terms[1]
    normal = middle.basis.T @ middle.basis + 0.1 * middle.penalty
    coefficients = np.linalg.solve(normal, middle.basis.T @ log_y)
    spread = float(np.std(log_y - middle.basis @ coefficients))
    return np.concatenate(
        [
            np.zeros(terms[0].basis.shape[1]),
            coefficients,
            np.full(terms[2].basis.shape[1], np.log(max(spread, 1e-3))),
        ]
    )


def _clustered(found: Optimum, animals: Sequence[Hashable]) -> Floats:
    """The sandwich covariance with all weighings of an animal as one."""
    import numpy as np

    number = {animal: i for i, animal in enumerate(dict.fromkeys(animals))}
    sums = np.zeros((len(number), found.scores.shape[1]))
    np.add.at(sums, [number[animal] for animal in animals], found.scores)
    bread = np.linalg.inv(found.information)
    meat = sums.T @ sums * len(number) / (len(number) - 1)
    return np.asarray(bread @ meat @ bread)


def _line(
    centile: float,
    l: Floats,  # noqa: E741
    log_m: Floats,
    log_s: Floats,
    bases: Sequence[Floats],
    covariances: Sequence[Floats],
) -> CentileLine:
    """A centile with its range by the delta method on ln X = ln M + ln(1 + L S z) / L."""
    import numpy as np

    z = z_of_centile(centile)
    q = np.exp(log_s) * z
    w = l * q
    if np.any(w <= -1):
        raise BadInput("the fitted curve has no such centile; check the weighings for slips")
    near = np.abs(w) < 1e-6
    power = np.where(near, 1.0, l)
    log_x = log_m + np.where(near, q, np.log1p(w) / power)
    by_l = np.where(near, -q * q / 2, (w / (1 + w) - np.log1p(w)) / power**2)
    slopes = np.hstack(
        [d[:, None] * b for d, b in zip((by_l, np.ones_like(q), q / (1 + w)), bases, strict=True)]
    )
    variances = [np.einsum("ij,jk,ik->i", slopes, c, slopes) for c in covariances]
    off = z_of_centile(97.5) * np.sqrt(np.maximum(variances[0], variances[1]))
    rows = (np.exp(log_x), np.exp(log_x - off), np.exp(log_x + off))
    return CentileLine(centile, *(tuple(map(float, row)) for row in rows))
