"""Scores of many weighings at once, with NumPy; the formulas and the tail rule are those of `lms`.

The work goes in blocks that stay in the processor's cache, so that a million weighings cost less
than the plain whole-array formula. NumPy is imported on the first call.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from warmside.core.errors import BadInput
from warmside.plugins.weight.lms import L_ZERO, TAIL_Z, LmsCurve

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import ArrayLike, NDArray

    Floats = NDArray[np.float64]

_BLOCK = 16_384


def z_scores(
    masses_g: ArrayLike, ages_days: ArrayLike, curve: LmsCurve, *, tail: bool = True
) -> Floats:
    """z scores, shape (n,), of masses in g at ages in days against one curve.

    BadInput where an age is outside the curve or a mass is not above zero.
    """
    import numpy as np

    masses, ages = np.broadcast_arrays(
        np.atleast_1d(np.asarray(masses_g, float)), np.atleast_1d(np.asarray(ages_days, float))
    )
    _check(masses, ages, curve)
    columns = [np.asarray(c, float) for c in (curve.ages_days, curve.l, curve.m_g, curve.s)]
    z = np.empty(masses.shape)
    for start in range(0, len(masses), _BLOCK):
        part = slice(start, start + _BLOCK)
        z[part] = z_of_lms(masses[part], *_interpolated(ages[part], columns), tail=tail)
    return z


def z_of_lms(masses: Floats, l: Floats, m: Floats, s: Floats, *, tail: bool = True) -> Floats:  # noqa: E741
    """z scores, shape (n,), of masses with L, M and S given for each; masses in the unit of M."""
    import numpy as np

    ratio = np.log(masses / m)
    flat = np.abs(l) < L_ZERO
    if flat.any():
        power = np.where(flat, 1.0, l)
        z = np.where(flat, ratio, np.expm1(power * ratio) / power) / s
    else:
        z = np.expm1(l * ratio) / (l * s)
    if tail:
        far = np.flatnonzero(np.abs(z) > TAIL_Z)
        if len(far):
            z[far] = _tail(masses[far], np.sign(z[far]), l[far], m[far], s[far])
    return z


def _tail(masses: Floats, side: Floats, l: Floats, m: Floats, s: Floats) -> Floats:  # noqa: E741
    outer = _mass(TAIL_Z * side, l, m, s)
    inner = _mass((TAIL_Z - 1) * side, l, m, s)
    return TAIL_Z * side + (masses - outer) / abs(outer - inner)


def _mass(z: Floats, l: Floats, m: Floats, s: Floats) -> Floats:  # noqa: E741
    import numpy as np

    flat = np.abs(l) < L_ZERO
    power = np.where(flat, 1.0, l)
    grown = np.where(flat, s * z, np.log1p(np.where(flat, 0.0, power * s * z)) / power)
    return m * np.exp(grown)


def _interpolated(ages: Floats, columns: list[Floats]) -> list[Floats]:
    """L, M and S at each age: one search for the interval serves all three."""
    import numpy as np

    knots = columns[0]
    if len(knots) == 1:
        return [np.full(ages.shape, c[0]) for c in columns[1:]]
    left = np.searchsorted(knots[1:-1], ages, side="right")
    part = (ages - knots[left]) / np.diff(knots)[left]
    return [c[left] + part * np.diff(c)[left] for c in columns[1:]]


def _check(masses: Floats, ages: Floats, curve: LmsCurve) -> None:
    import numpy as np

    if not np.all(masses > 0):
        raise BadInput("a mass of zero or less cannot be scored; leave it out or correct it")
    if not np.all((ages >= curve.ages_days[0]) & (ages <= curve.ages_days[-1])):
        raise BadInput(
            f"an age is outside the reference's {curve.ages_days[0]:g} to "
            f"{curve.ages_days[-1]:g} days; leave it out or use a reference that covers it"
        )
