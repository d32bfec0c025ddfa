"""L, M and S from a row of printed centiles.

The three are those whose centiles lie nearest to the printed ones in log mass (least squares), by
the LMS formula of Cole & Green 1992. Three centiles fix them, more average out the rounding.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from itertools import pairwise
from math import exp, log, log1p

from warmside.api import BadInput, figures
from warmside.plugins.weight.lms.lms import Lms, check_lms, z_of_centile

_SMALL = 1e-4  # below it the power series is exact to rounding


def lms_of_centiles(centiles: Mapping[float, float]) -> Lms:
    """L, M, S of masses in g by centile (0 to 100, three or more, rising).

    BadInput where the masses do not rise with the centile or no LMS curve comes near.
    """
    pairs = sorted(centiles.items())
    masses = [mass for _, mass in pairs]
    if masses[0] <= 0:
        raise BadInput(f"centile mass of {masses[0]:g} g is not above zero; correct it")
    if any(b <= a for a, b in pairwise(masses)):
        raise BadInput("the centile masses do not rise from left to right; correct them")
    z = [z_of_centile(c) for c, _ in pairs]
    logs = [log(mass) for mass in masses]
    return _nearest(z, logs)


def _nearest(z: Sequence[float], logs: Sequence[float]) -> Lms:
    middle = min(range(len(z)), key=lambda i: abs(z[i]))
    spread = (logs[-1] - logs[0]) / (z[-1] - z[0])
    start = (0.0, logs[middle] - spread * z[middle], log(spread))
    found = figures.least_squares(lambda p: _residuals(p, z, logs), start)
    if found is None or found.rss > 1e-2 * spread**2 * len(z):
        raise BadInput("no l, m, s comes near these centiles; check them")
    power, log_m, log_s = found.parameters
    lms = Lms(power, exp(log_m), exp(log_s))
    check_lms(lms)
    return lms


def _residuals(
    p: Sequence[float], z: Sequence[float], logs: Sequence[float]
) -> tuple[list[float], list[list[float]]] | None:
    """Residuals of log mass, and slopes by L, ln M and ln S; None where 1 + L S z <= 0."""
    power, log_m, log_s = p
    if abs(power) > 50 or abs(log_s) > 50:
        return None
    s = exp(log_s)
    residuals, slopes = [], []
    for zi, log_x in zip(z, logs, strict=True):
        q = s * zi
        w = power * q
        if not w > -1 + 1e-9:
            return None
        residuals.append(log_x - log_m - _log1p_over(power, q))
        slopes.append([_slope_by_l(power, q), 1.0, q / (1 + w)])
    return residuals, slopes


def _log1p_over(power: float, q: float) -> float:
    w = power * q
    return log1p(w) / power if abs(w) > _SMALL else q * (1 - w / 2 + w * w / 3)


def _slope_by_l(power: float, q: float) -> float:
    w = power * q
    if abs(w) <= _SMALL:
        return q * q * (-0.5 + 2 * w / 3 - 0.75 * w * w)
    return (w / (1 + w) - log1p(w)) / power**2
