"""How sure a rate or a share is that was counted: exact 95 % intervals."""

from __future__ import annotations

from scipy.stats import beta, chi2

TAIL = 0.025


def of_rate(count: int, years: float) -> tuple[float, float]:
    """The rates a year under which so many are not unlikely (Poisson; Garwood 1936)."""
    low = float(chi2.ppf(TAIL, 2 * count)) / 2 if count else 0.0
    return low / years, float(chi2.ppf(1 - TAIL, 2 * count + 2)) / 2 / years


def of_share(count: int, number: int) -> tuple[float, float]:
    """The shares under which so many of a number are not unlikely (Clopper & Pearson 1934)."""
    low = float(beta.ppf(TAIL, count, number - count + 1)) if count else 0.0
    high = float(beta.ppf(1 - TAIL, count + 1, number - count)) if count < number else 1.0
    return low, high
