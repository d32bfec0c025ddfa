"""The factors between scales against published tables and an independent implementation."""

from __future__ import annotations

from datetime import date
from decimal import Decimal
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from warmside.core.values.measures.measure import measure_of
from warmside.core.values.quantities import Display, convert_for_display, parse_quantity
from warmside.core.values.scales import Scale
from warmside.core.values.units import Unit, units

# Factors as printed (seven digits, or fewer where exact) for one of the unit, in the stored unit.
PRINTED = [
    ("1 oz", Unit.MASS, "28.34952"),
    ("1 lb", Unit.MASS, "453.5924"),
    ("1 in", Unit.LENGTH, "25.4"),
    ("1 ft", Unit.LENGTH, "304.8"),
    ("1 yd", Unit.LENGTH, "914.4"),
    ("1 in2", Unit.AREA, "645.16"),
    ("1 ft2", Unit.AREA, "92903.04"),
    ("1 fl oz", Unit.VOLUME, "29.57353"),
    ("1 gal", Unit.VOLUME, "3785.412"),
    ("1 kcal", Unit.ENERGY, "4.184"),
    ("1 fc", Unit.ILLUMINANCE, "10.76391"),
    ("1 mbar", Unit.PRESSURE, "100"),
]


@pytest.mark.parametrize(("text", "unit", "printed"), PRINTED)
def test_factors_are_those_of_the_nist_table(text: str, unit: Unit, printed: str) -> None:
    """NIST Special Publication 811 (2008), appendices B.8 and B.9, seven-digit factors; published.

    Mass, length and energy were checked against transcriptions of B.9, areas, fluid ounce and
    gallon are from memory of B.8. The calorie is the thermochemical one.
    """
    half_step = Decimal(printed) / 10**7 * 5
    assert abs(Decimal(parse_quantity(text, unit)) - Decimal(printed)) <= half_step


@pytest.mark.parametrize(
    ("text", "unit", "exact"),
    [
        ("1 lb", Unit.MASS, "453.59237"),
        ("1 oz", Unit.MASS, "28.349523125"),
        ("1 in", Unit.LENGTH, "25.4"),
        ("1 fl oz", Unit.VOLUME, "29.5735295625"),
        ("1 gal", Unit.VOLUME, "3785.411784"),
    ],
)
def test_exact_values_are_exact(text: str, unit: Unit, exact: str) -> None:
    """NIST Handbook 44, appendix C, section 4, values underlined there as exact; published."""
    assert parse_quantity(text, unit) == float(exact)


@pytest.mark.parametrize(
    ("fahrenheit", "celsius"),
    [("-40", -40.0), ("0", -160 / 9), ("32", 0.0), ("50", 10.0), ("98.6", 37.0), ("212", 100.0)],
)
def test_fahrenheit_follows_its_definition(fahrenheit: str, celsius: float) -> None:
    """NIST Special Publication 811, B.8: t/°C = (t/°F - 32)/1.8; fixed points; published."""
    assert parse_quantity(f"{fahrenheit}F", Unit.TEMPERATURE) == celsius
    shown, symbol = convert_for_display(celsius, Unit.TEMPERATURE, Display.IMPERIAL)
    assert shown == pytest.approx(float(fahrenheit), abs=1e-12)
    assert symbol == "°F"


def test_kelvin_is_celsius_shifted() -> None:
    """NIST Special Publication 811, B.8: T/K = t/°C + 273.15; published."""
    assert parse_quantity("273.15K", Unit.TEMPERATURE) == 0.0
    assert parse_quantity("0K", Unit.TEMPERATURE) == -273.15


PINT_NAMES = {
    "oz": "ounce",
    "lb": "pound",
    "in": "inch",
    "°C": "degC",
    "°F": "degF",
    "°C·h": "delta_degC * hour",
    "°F·h": "delta_degF * hour",
    "K": "kelvin",
    "fl oz": "fluid_ounce",
    "gal": "gallon",
    "l": "liter",
    "h": "hour",
    "mm²": "mm**2",
    "cm²": "cm**2",
    "m²": "m**2",
    "in²": "inch**2",
    "ft²": "foot**2",
    "g/m³": "g/m**3",
    "W/m²K": "W/m**2/K",
    "lx": "lux",
    "klx": "kilolux",
    "fc": "lumen/foot**2",
    "y": "gregorian_year",
    "m": "m",
}
PLAIN = ("", "%", "UVI")
MONTHS = ("months", "m")  # pint has none of the Gregorian year
SCALES = [
    (unit, scale)
    for unit in units()
    for scale in measure_of(unit).scales
    if measure_of(unit).scales[0].symbol not in PLAIN and scale.symbol not in MONTHS
]


def pint_name(unit: Unit, scale: Scale) -> str:
    """The unit as pint calls it; a difference of temperature has a name of its own there."""
    if unit is Unit.TEMPERATURE_DIFFERENCE:
        return {"°C": "delta_degC", "°F": "delta_degF"}[scale.symbol]
    return PINT_NAMES.get(scale.symbol, scale.symbol)


@pytest.mark.parametrize(
    ("unit", "scale"), SCALES, ids=lambda x: str(getattr(x, "symbol", "")) or x.name
)
def test_every_scale_agrees_with_an_independent_library(unit: Unit, scale: Scale) -> None:
    """The library pint, whose definitions are maintained apart from ours, to 1 part in 10^12."""
    pint = pytest.importorskip("pint")
    theirs = pint.Quantity(12.5, pint_name(unit, scale))
    there = theirs.to(pint_name(unit, measure_of(unit).scales[0])).magnitude
    assert float(scale.to_stored(Decimal("12.5"))) == pytest.approx(there, rel=1e-12)


def test_a_difference_of_temperature_is_shown_without_the_shift_of_the_scale() -> None:
    """NIST Special Publication 811, B.8: a difference of 1 °F is 5/9 K; published, and by pint."""
    pint = pytest.importorskip("pint")
    shown, symbol = convert_for_display(8.0, Unit.TEMPERATURE_DIFFERENCE, Display.US_TRADE)
    assert (shown, symbol) == (14.4, "°F")
    assert shown == pytest.approx(pint.Quantity(8, "delta_degC").to("delta_degF").magnitude)


def test_the_mean_year_is_that_of_the_calendar() -> None:
    """Python's proleptic Gregorian calendar over one whole cycle of 400 years (ISO 8601)."""
    days = (date(2400, 1, 1) - date(2000, 1, 1)).days
    assert parse_quantity("1y", Unit.AGE) == days / 400
    assert parse_quantity("1 month", Unit.AGE) == days / 4800


@given(
    st.decimals(0, 10**6, places=4),
    st.sampled_from([u for u in units() if not measure_of(u).whole]),
)
def test_text_becomes_the_float_nearest_to_the_exact_value(number: Decimal, unit: Unit) -> None:
    """Exact rational arithmetic (Python's fractions) on the table's definitions."""
    for scale in measure_of(unit).scales:
        stored = (Fraction(number) - Fraction(scale.zero)) * Fraction(scale.times)
        stored /= Fraction(scale.over)
        if stored > (1 if unit is Unit.PROBABILITY else 100_000):
            continue
        assert parse_quantity(f"{number}{scale.names[0]}", unit) == float(stored)
