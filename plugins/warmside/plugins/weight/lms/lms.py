"""Scores and centiles in LMS form, one weighing at a time; no NumPy, so the daily round may ask.

z = ((X/M)^L - 1) / (L S), or ln(X/M)/S where L is 0; X = M (1 + L S z)^(1/L).
Source: Cole TJ & Green PJ 1992, Statistics in Medicine 11:1305-1319.

Tail rule, as the WHO Child Growth Standards 2006 (Methods and development, ch. 7) apply it to
weights: beyond 3 standard deviations z grows evenly with mass, by the distance from 2 to 3:
z = 3 + (X - SD3) / (SD3 - SD2) above, z = -3 + (X - SD3neg) / (SD2neg - SD3neg) below.
It keeps a few skewed extremes from ruling z far outside the data.
"""

from __future__ import annotations

from bisect import bisect_right
from math import copysign, erfc, exp, expm1, inf, isfinite, log, log1p, sqrt

from msgspec import Struct

from warmside.api import BadInput

TAIL_Z = 3.0
"""Where the tail rule takes over, in standard deviations."""

L_LIMIT = 10.0
S_LIMIT = 2.0
MASS_LIMIT_G = 1e9
L_ZERO = 1e-12  # below it the power form loses all digits, and the log form is exact


class Lms(Struct, frozen=True):
    """Skewness, median in g and coefficient of variation at one age."""

    l: float  # noqa: E741 - the name in the literature
    m_g: float
    s: float


class Score(Struct, frozen=True):
    """A z score, its centile (0 to 100), and whether the tail rule made it."""

    z: float
    centile: float
    tail_rule: bool


class LmsCurve(Struct, frozen=True):
    """L, M (g) and S at rising ages in days; linear between them, nothing outside."""

    ages_days: tuple[float, ...]
    l: tuple[float, ...]  # noqa: E741
    m_g: tuple[float, ...]
    s: tuple[float, ...]

    def covers(self, age_days: float) -> bool:
        """Whether the age lies within the curve's first and last age."""
        return self.ages_days[0] <= age_days <= self.ages_days[-1]

    def at(self, age_days: float) -> Lms:
        """L, M and S at an age, linear between the two nearest; BadInput outside the ages."""
        if not self.covers(age_days):
            raise BadInput(
                f"age {age_days:g} days is outside the reference's {self.ages_days[0]:g} to "
                f"{self.ages_days[-1]:g} days; use a reference that covers it"
            )
        i = min(bisect_right(self.ages_days, age_days), len(self.ages_days) - 1)
        before = max(i - 1, 0)
        span = self.ages_days[i] - self.ages_days[before]
        part = (age_days - self.ages_days[before]) / span if span else 0.0
        return Lms(*((1 - part) * c[before] + part * c[i] for c in (self.l, self.m_g, self.s)))


def check_lms(lms: Lms) -> None:
    """BadInput where L, M or S cannot describe masses (S of zero, M not above zero, not finite)."""
    if not abs(lms.l) <= L_LIMIT:
        raise BadInput(f"l of {lms.l:g} is not between -{L_LIMIT:g} and {L_LIMIT:g}; correct it")
    if not 0 < lms.m_g <= MASS_LIMIT_G:
        raise BadInput(f"m of {lms.m_g:g} is no mass in grams; give a median above zero")
    if not 0 < lms.s <= S_LIMIT:
        raise BadInput(f"s of {lms.s:g} is not above 0 and up to {S_LIMIT:g}; correct it")


def score(mass_g: float, lms: Lms, *, tail: bool = True) -> Score:
    """The z score and centile of a mass in g; `tail` False leaves out the WHO tail rule."""
    if not 0 < mass_g <= MASS_LIMIT_G:
        raise BadInput(f"mass of {mass_g:g} g cannot be scored; give a mass above zero")
    z = _plain_z(mass_g, lms)
    beyond = tail and abs(z) > TAIL_Z
    if beyond:
        outer, inner = _tail_masses(copysign(1.0, z), lms)
        z = copysign(TAIL_Z, z) + (mass_g - outer) / abs(outer - inner)
    return Score(z, centile_of(z), beyond)


def mass_at(z: float, lms: Lms, *, tail: bool = True) -> float:
    """The mass in g that has this z score; BadInput where no mass has it (1 + L S z <= 0)."""
    if not isfinite(z):
        raise BadInput(f"z of {z:g} has no mass; give a number")
    if not (tail and abs(z) > TAIL_Z):
        return _plain_mass(z, lms)
    outer, inner = _tail_masses(copysign(1.0, z), lms)
    mass = outer + (z - copysign(TAIL_Z, z)) * abs(outer - inner)
    if mass <= 0:
        raise BadInput(f"no mass has a z of {z:g} here; give a z nearer to zero")
    return mass


def centile_of(z: float) -> float:
    """The centile (0 to 100) of a z score under the normal distribution."""
    return 50.0 * erfc(-z / sqrt(2.0))


def z_of_centile(centile: float) -> float:
    """The z score of a centile strictly between 0 and 100."""
    from statistics import NormalDist  # late: it costs the round 10 ms

    if not 0 < centile < 100:
        raise BadInput(f"centile {centile:g} is not between 0 and 100; give one between them")
    return NormalDist().inv_cdf(centile / 100)


def _plain_z(mass_g: float, lms: Lms) -> float:
    ratio = log(mass_g / lms.m_g)
    if abs(lms.l) < L_ZERO:
        return ratio / lms.s
    return expm1(lms.l * ratio) / (lms.l * lms.s)


def _plain_mass(z: float, lms: Lms) -> float:
    if abs(lms.l) < L_ZERO:
        power = lms.s * z
    else:
        lsz = lms.l * lms.s * z
        power = log1p(lsz) / lms.l if lsz > -1 else inf
    if abs(power) > 600:  # the exponential leaves the range of floats near 709
        raise BadInput(f"no mass has a z of {z:g} here; give a z nearer to zero")
    return lms.m_g * exp(power)


def _tail_masses(side: float, lms: Lms) -> tuple[float, float]:
    return _plain_mass(side * TAIL_Z, lms), _plain_mass(side * (TAIL_Z - 1), lms)
