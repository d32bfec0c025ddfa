"""What a reptile burns: standard, resting and field rate in kJ/day.

Standard and resting: Andrews & Pough 1985 (Physiol Zool 58:214-231, Eq. 2). Field: Nagy 2005
(J Exp Biol 208:1621-1625). Hours at different temperatures are averaged as rates, not as
temperatures: the rate rises faster than the temperature.
"""

from __future__ import annotations

import math
from collections.abc import Callable

from msgspec import Struct

from warmside.api import BadInput, Basis, Estimate, Mark, Source, Unit

Span = tuple[float, float]
KJ_PER_KCAL = 4.184
LEAST_G, MOST_G = 0.05, 500_000.0
OXYGEN_J_PER_ML = 20.1
COLDEST_C, HOTTEST_C = 0.0, 45.0
# Older fits (Bennett & Dawson 1976) agree with Eq. 2 within 30 %.
RATE_SPREAD = 0.30
FIELD_SPREAD = 2.0

ANDREWS_POUGH = Source(
    "Andrews & Pough 1985, Physiol Zool 58:214-231, Eq. 2; 20.1 J per ml of oxygen; "
    "other fits differ by up to 30 %",
    Mark.PUBLISHED,
)
NAGY = Source(
    "Nagy 2005, J Exp Biol 208:1621-1625, reptiles; single species up to a factor of two off",
    Mark.PUBLISHED,
)


class Spell(Struct, frozen=True):
    """So many hours of the day at a temperature between two limits in °C."""

    hours: float
    low_c: float
    high_c: float


Day = tuple[Spell, ...]
_Rate = Callable[[float, float], float]


class Needs(Struct, frozen=True):
    """Three rates in kJ/day: fasted and inactive, fasted and awake, and free in the field."""

    standard: Estimate
    resting: Estimate
    field: Estimate


def check_mass(mass_g: float) -> float:
    """The mass of an animal in g, or BadInput where no reptile weighs so much."""
    if not math.isfinite(mass_g) or not LEAST_G <= mass_g <= MOST_G:
        raise BadInput(f"mass {mass_g:g} g cannot be right; give {LEAST_G:g} g to 500 kg")
    return mass_g


def check_temperature(temperature_c: float) -> float:
    """A body temperature in °C; BadInput outside 0 to 45 °C, where the equation means nothing."""
    if not COLDEST_C <= temperature_c <= HOTTEST_C:
        raise BadInput(f"temperature {temperature_c:g} °C is outside 0 to 45 °C; check it")
    return temperature_c


def oxygen_ml_per_hour(mass_g: float, temperature_c: float, *, resting: bool = False) -> float:
    """Oxygen used, ml/h: 0.013 · M^0.80 · 10^(0.038 T) · 10^(0.14 s), s = 1 resting."""
    check_mass(mass_g)
    state = 0.14 if resting else 0.0
    exponent = 0.038 * check_temperature(temperature_c) + state
    return 0.013 * math.pow(mass_g, 0.80) * math.pow(10.0, exponent)


def standard_kj_per_day(mass_g: float, temperature_c: float) -> float:
    """Standard rate in kJ/day: fasted, in the inactive part of the day."""
    return oxygen_ml_per_hour(mass_g, temperature_c) * OXYGEN_J_PER_ML * 24.0 / 1000.0


def resting_kj_per_day(mass_g: float, temperature_c: float) -> float:
    """Resting rate in kJ/day: fasted, in the active part of the day (1.380 × standard)."""
    resting = oxygen_ml_per_hour(mass_g, temperature_c, resting=True)
    return resting * OXYGEN_J_PER_ML * 24.0 / 1000.0


def field_kj_per_day(mass_g: float) -> float:
    """Field rate in kJ/day: 0.196 · M^0.889 (Nagy 2005); the upper mark for a kept animal."""
    return 0.196 * math.pow(check_mass(mass_g), 0.889)


def steady_day(temperature_c: float) -> Day:
    """A day at one temperature."""
    return (Spell(24.0, check_temperature(temperature_c), temperature_c),)


def mixed_day(warm_c: Span, cool_c: Span, warm_hours: float) -> Day:
    """A day with so many hours on the warm side (or by day), the rest on the cool (or by night)."""
    if not 0.0 <= warm_hours <= 24.0:
        raise BadInput(f"{warm_hours:g} warm hours a day; give 0 to 24")
    for temperature in (*warm_c, *cool_c):
        check_temperature(temperature)
    return (Spell(warm_hours, *sorted(warm_c)), Spell(24.0 - warm_hours, *sorted(cool_c)))


def needs(mass: Estimate, day: Day) -> Needs:
    """The three rates for a mass in g (with its range) over the temperatures of a day."""
    standard = _over(mass, day, standard_kj_per_day, "standard rate")
    resting = _over(mass, day, resting_kj_per_day, "resting rate")
    return Needs(standard, resting, _field(mass))


def what_if(mass_g: float, temperature_c: float) -> Needs:
    """The three rates of an animal that is not on record."""
    mass = Estimate(check_mass(mass_g), mass_g, mass_g, Unit.MASS, Basis("as given"))
    return needs(mass, steady_day(temperature_c))


def _over(mass: Estimate, day: Day, rate: _Rate, name: str) -> Estimate:
    middle = middle_mass(mass)
    value = sum(s.hours * rate(middle, (s.low_c + s.high_c) / 2) for s in day) / 24.0
    low = sum(s.hours * rate(mass.low, s.low_c) for s in day) / 24.0
    high = sum(s.hours * rate(mass.high, s.high_c) for s in day) / 24.0
    basis = Basis(f"{name} at {_told(day)}", ANDREWS_POUGH, mass.basis.events)
    spread = (low * (1 - RATE_SPREAD), high * (1 + RATE_SPREAD))
    return Estimate(value, *spread, Unit.ENERGY_RATE, basis)


def _field(mass: Estimate) -> Estimate:
    value = field_kj_per_day(middle_mass(mass))
    low = field_kj_per_day(mass.low) / FIELD_SPREAD
    high = field_kj_per_day(mass.high) * FIELD_SPREAD
    basis = Basis("field rate, the upper mark", NAGY, mass.basis.events)
    return Estimate(value, low, high, Unit.ENERGY_RATE, basis)


def middle_mass(mass: Estimate) -> float:
    """The mass to reckon with: the value, or the middle of a range without one."""
    return mass.value if mass.value is not None else (mass.low + mass.high) / 2


def _told(day: Day) -> str:
    spells = (
        f"{s.low_c:g}" + (f" to {s.high_c:g}" if s.high_c > s.low_c else "") + f" °C {s.hours:g} h"
        for s in day
        if s.hours > 0
    )
    return ", ".join(spells)
