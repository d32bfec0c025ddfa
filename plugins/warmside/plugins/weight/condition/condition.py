"""Body condition from length and mass.

Scaled mass index: SMI_i = M_i (L0 / L_i)^b, b = b_OLS / r of ln mass on ln length, L0 the mean
length. Source: Peig J & Green AJ 2009, Oikos 118:1883-1891. The family curves are orientation only.
"""

from __future__ import annotations

import functools
from collections.abc import Sequence
from datetime import date
from math import log, log10, sqrt

from msgspec import Struct

from warmside.api import BadInput, Basis, Estimate, Mark, Source, Unit, sourced_rows

MIN_PAIRS = 6
"""Length and mass taken together, this often, before a slope is worth anything (our rule)."""

LEAST_R = 0.5
"""Below this correlation of length and mass, the slope is noise (our rule)."""

INDIVIDUAL_FACTOR = 2.0
WARNING = (
    "a family curve gives a mass for orientation only: single animals miss it by 1.6 to 2 times, "
    "so it never says that an animal is thin or fat"
)
SMI_SOURCE = Source("Peig & Green 2009, Oikos 118:1883-1891", Mark.PUBLISHED)


class LengthMass(Struct, frozen=True):
    """A snout-vent length in mm and a mass in g taken together; `events` are both records."""

    events: tuple[int, ...]
    length_mm: float
    mass_g: float


class Taken(Struct, frozen=True):
    """A length and mass taken together, and the day of the length."""

    day: date
    pair: LengthMass


class Condition(Struct, frozen=True):
    """The scaled mass index in g of each pair, at the length `l0_mm`, with the slope used."""

    slope: float
    l0_mm: float
    r: float
    index_g: tuple[float, ...]


class FamilyCurve(Struct, frozen=True):
    """log10 mass (g) = a + b log10 snout-vent length (mm) of a group of species."""

    family: str
    a: float
    b: float
    source: Source


def scaled_mass_index(pairs: Sequence[LengthMass]) -> Condition:
    """The scaled mass index of each pair, at the mean length.

    BadInput with fewer than MIN_PAIRS, with one length only, or where length does not tell mass.
    """
    if len(pairs) < MIN_PAIRS:
        raise BadInput(
            f"{len(pairs)} lengths with a mass, the index needs {MIN_PAIRS}; "
            f"measure and weigh {MIN_PAIRS - len(pairs)} more times"
        )
    x, y = [log(p.length_mm) for p in pairs], [log(p.mass_g) for p in pairs]
    sxx, syy, sxy = _moments(x, y)
    r = sxy / sqrt(sxx * syy) if sxx * syy > 0 else 0.0
    if r < LEAST_R:
        raise BadInput(
            f"length and mass hardly go together here (r {r:.2f}); "
            "the index needs animals or ages of different length"
        )
    slope = sxy / sxx / r
    l0 = sum(p.length_mm for p in pairs) / len(pairs)
    return Condition(slope, l0, r, tuple(p.mass_g * (l0 / p.length_mm) ** slope for p in pairs))


@functools.cache
def family_curves() -> tuple[FamilyCurve, ...]:
    """The rows of data/length_mass.toml."""
    rows = sourced_rows("warmside.plugins.weight", "length_mass")
    return tuple(FamilyCurve(r["family"], r["a"], r["b"], r.source) for r in rows)


def family_mass(family: str, snout_vent_mm: float) -> Estimate:
    """The mass of a family curve at a length, give or take the factor of single animals.

    Show WARNING with it. BadInput for a family without a row or a length that is none.
    """
    if not 0 < snout_vent_mm < 20_000:
        raise BadInput(f"snout-vent length of {snout_vent_mm:g} mm cannot be; give one in mm")
    curve = next((c for c in family_curves() if c.family.casefold() == family.casefold()), None)
    if curve is None:
        known = ", ".join(c.family for c in family_curves())
        raise BadInput(f"no length-mass curve for {family!r}; there is one for: {known}")
    mass = 10 ** (curve.a + curve.b * log10(snout_vent_mm))
    low, high = mass / INDIVIDUAL_FACTOR, mass * INDIVIDUAL_FACTOR
    rule = f"length-mass curve of {curve.family}, for orientation only"
    return Estimate(mass, low, high, Unit.MASS, Basis(rule, curve.source))


def _moments(x: Sequence[float], y: Sequence[float]) -> tuple[float, float, float]:
    mean_x, mean_y = sum(x) / len(x), sum(y) / len(y)
    pairs = [(a - mean_x, b - mean_y) for a, b in zip(x, y, strict=True)]
    return (
        sum(a * a for a, _ in pairs),
        sum(b * b for _, b in pairs),
        sum(a * b for a, b in pairs),
    )
