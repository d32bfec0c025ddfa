"""Scores of many weighings at once, with NumPy; the formulas and the tail rule are those of `lms`.

The work goes in blocks that stay in the processor's cache, so that a million weighings cost less
than the plain whole-array formula. NumPy is imported on the first call.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from msgspec import Struct

from warmside.api import BadInput
from warmside.plugins.weight.lms.lms import L_ZERO, TAIL_Z, LmsCurve

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import ArrayLike, NDArray

    Floats = NDArray[np.float64]

_BLOCK = 16_384
_MOST_CELLS = 100_000


class _Table(Struct, frozen=True):
    """A curve made ready: ages, the upper end of each interval, and L, M, S with their slopes.

    `intervals` is the interval at the start of each cell of an even grid; `simple` False where the
    grid is too coarse to be trusted.
    """

    knots: Floats
    upper: Floats
    columns: list[tuple[Floats, Floats]]
    cell: float
    intervals: NDArray[np.intp]
    simple: bool


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
    table = _table(curve)
    z, far = np.empty(masses.shape), []
    for start in range(0, len(masses), _BLOCK):
        part = slice(start, start + _BLOCK)
        z[part] = _plain_z(masses[part], *_interpolated(ages[part], table))
        if tail:
            far.append(start + np.flatnonzero(np.abs(z[part]) > TAIL_Z))
    if far:
        there = np.concatenate(far)
        lms = _interpolated(ages[there], table)
        z[there] = _tail_z(masses[there], np.sign(z[there]), *lms)
    return z


def z_of_lms(masses: Floats, l: Floats, m: Floats, s: Floats, *, tail: bool = True) -> Floats:  # noqa: E741
    """z scores, shape (n,), of masses with L, M and S given for each; masses in the unit of M."""
    import numpy as np

    z = np.empty(masses.shape)
    for start in range(0, len(masses), _BLOCK):
        p = slice(start, start + _BLOCK)
        z[p] = _plain_z(masses[p], l[p], m[p], s[p])
    if tail:
        far = np.flatnonzero(np.abs(z) > TAIL_Z)
        z[far] = _tail_z(masses[far], np.sign(z[far]), l[far], m[far], s[far])
    return z


def _plain_z(masses: Floats, l: Floats, m: Floats, s: Floats) -> Floats:  # noqa: E741
    import numpy as np

    ratio = np.log(masses / m)
    flat = np.abs(l) < L_ZERO
    if flat.any():
        power = np.where(flat, 1.0, l)
        return np.asarray(np.where(flat, ratio, np.expm1(power * ratio) / power) / s)
    return np.asarray(np.expm1(l * ratio) / (l * s))


def _tail_z(masses: Floats, side: Floats, l: Floats, m: Floats, s: Floats) -> Floats:  # noqa: E741
    outer = _mass(TAIL_Z * side, l, m, s)
    inner = _mass((TAIL_Z - 1) * side, l, m, s)
    return TAIL_Z * side + (masses - outer) / abs(outer - inner)


def _mass(z: Floats, l: Floats, m: Floats, s: Floats) -> Floats:  # noqa: E741
    import numpy as np

    flat = np.abs(l) < L_ZERO
    power = np.where(flat, 1.0, l)
    grown = np.where(flat, s * z, np.log1p(np.where(flat, 0.0, power * s * z)) / power)
    return np.asarray(m * np.exp(grown))


def _table(curve: LmsCurve) -> _Table:
    import numpy as np

    knots = np.asarray(curve.ages_days, float)
    if len(knots) == 1:  # a second row alike, so that there is an interval
        knots = np.array([knots[0], knots[0] + 1])
    values = [np.resize(np.asarray(c, float), knots.shape) for c in (curve.l, curve.m_g, curve.s)]
    gaps = np.diff(knots)
    cell = max(float(gaps.min()), float(knots[-1] - knots[0]) / _MOST_CELLS)
    grid = knots[0] + cell * np.arange(int((knots[-1] - knots[0]) / cell) + 2)
    return _Table(
        knots,
        np.append(knots[1:-1], np.inf),
        [(v, np.diff(v) / gaps) for v in values],
        cell,
        np.searchsorted(knots[1:-1], grid, side="right"),
        simple=cell <= gaps.min(),
    )


def _interpolated(ages: Floats, table: _Table) -> list[Floats]:
    """L, M and S at each age.

    An even grid no wider than the narrowest gap points at the interval, with one step at most to
    correct; that is ten times as fast as a search. A gap too narrow for a grid is searched.
    """
    import numpy as np

    if table.simple:
        cells = ((ages - table.knots[0]) * (1 / table.cell)).astype(np.intp)
        left = table.intervals.take(cells, mode="clip")  # clip is the fast mode, none is outside
        left += ages >= table.upper.take(left, mode="clip")
    else:
        left = np.searchsorted(table.knots[1:-1], ages, side="right")
    beyond = ages - table.knots.take(left, mode="clip")
    found = []
    for value, slope in table.columns:
        rise = slope.take(left, mode="clip")
        rise *= beyond
        rise += value.take(left, mode="clip")
        found.append(rise)
    return found


def _check(masses: Floats, ages: Floats, curve: LmsCurve) -> None:
    import numpy as np

    if not np.all(masses > 0):
        raise BadInput("a mass of zero or less cannot be scored; leave it out or correct it")
    if not np.all((ages >= curve.ages_days[0]) & (ages <= curve.ages_days[-1])):
        raise BadInput(
            f"an age is outside the reference's {curve.ages_days[0]:g} to "
            f"{curve.ages_days[-1]:g} days; leave it out or use a reference that covers it"
        )
