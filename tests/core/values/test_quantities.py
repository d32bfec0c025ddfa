"""Quantities are read exactly as typed or refused, and shown so that they read back."""

from __future__ import annotations

import math
import re

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from warmside.core.values.errors import BadInput
from warmside.core.values.measures.measure import Bare, measure_of
from warmside.core.values.quantities import (
    Display,
    convert_for_display,
    format_quantity,
    parse_quantity,
    typing_help,
)
from warmside.core.values.units import Unit, units

BARE_UNITS = [u for u in units() if measure_of(u).bare is Bare.ALWAYS]
DISPLAYS = (Display.METRIC, Display.US_TRADE, Display.IMPERIAL)


def refusal(text: str, unit: Unit, *, bare: bool = False) -> str:
    with pytest.raises(BadInput) as caught:
        parse_quantity(text, unit, bare=bare, what="it")
    return str(caught.value)


@pytest.mark.parametrize(
    ("text", "unit", "stored"),
    [
        ("412g", Unit.MASS, 412.0),
        ("412 Grams", Unit.MASS, 412.0),
        ("1.24kg", Unit.MASS, 1240.0),
        ("1 kg 240 g", Unit.MASS, 1240.0),
        ("250 mg", Unit.MASS, 0.25),
        ("14.5oz", Unit.MASS, 411.0680853125),
        ("1 lb 3 oz", Unit.MASS, 538.640939375),
        ("1lb 3.5oz.", Unit.MASS, 552.8157009375),
        (".5 g", Unit.MASS, 0.5),
        ("1 lb .5 oz", Unit.MASS, 467.7671315625),
        ("1e3 g", Unit.MASS, 1000.0),
        ("+3g", Unit.MASS, 3.0),
        ("412\N{NO-BREAK SPACE}g", Unit.MASS, 412.0),
        ("412\N{ZERO WIDTH SPACE}g", Unit.MASS, 412.0),
        ("４１２ g", Unit.MASS, 412.0),
        ("85mm", Unit.LENGTH, 85.0),
        ("1.2m", Unit.LENGTH, 1200.0),
        ("48 in", Unit.LENGTH, 1219.2),
        ('48"', Unit.LENGTH, 1219.2),
        ("4ft 2in", Unit.LENGTH, 1270.0),
        ("4'2\"", Unit.LENGTH, 1270.0),
        ("4'2''", Unit.LENGTH, 1270.0),
        ("4’ 2”", Unit.LENGTH, 1270.0),
        ("4′ 2″", Unit.LENGTH, 1270.0),
        ("2 yd 1 ft 6 in", Unit.LENGTH, 2286.0),
        ("7200 cm²", Unit.AREA, 720_000.0),
        ("7200cm^2", Unit.AREA, 720_000.0),
        ("0.72 m2", Unit.AREA, 720_000.0),
        ("8 sq. ft.", Unit.AREA, 743_224.32),
        ("30C", Unit.TEMPERATURE, 30.0),
        ("30 ° c", Unit.TEMPERATURE, 30.0),
        ("30ºC", Unit.TEMPERATURE, 30.0),
        ("86F", Unit.TEMPERATURE, 30.0),
        ("-4 °F", Unit.TEMPERATURE, -20.0),
        ("−5C", Unit.TEMPERATURE, -5.0),
        ("300 K", Unit.TEMPERATURE, 26.85),
        ("8 fl. oz.", Unit.VOLUME, 236.5882365),
        ("1 l 500 ml", Unit.VOLUME, 1500.0),
        ("2 kcal per day", Unit.ENERGY_RATE, 8.368),
        ("7 g/week", Unit.GROWTH_RATE, 1.0),
        ("-7 g / week", Unit.GROWTH_RATE, -1.0),
        ("90 min", Unit.HOURS, 1.5),
        ("13h 20m", Unit.HOURS, 13 + 1 / 3),
        ("12", Unit.DAYS, 12.0),
        ("2w", Unit.DAYS, 14.0),
        ("2w 3d", Unit.DAYS, 17.0),
        ("60%", Unit.PERCENT, 60.0),
        ("60", Unit.PERCENT, 60.0),
        ("12 %", Unit.RATIO, 0.12),
        ("5%", Unit.PROBABILITY, 0.05),
        ("3", Unit.COUNT, 3.0),
        ("12.50", Unit.MONEY, 12.5),
        ("8C", Unit.TEMPERATURE_DIFFERENCE, 8.0),
        ("8 K", Unit.TEMPERATURE_DIFFERENCE, 8.0),
        ("-14.4 °F", Unit.TEMPERATURE_DIFFERENCE, -8.0),
        ("43.2 F h", Unit.DEGREE_HOURS, 24.0),
        ("1013 hPa", Unit.PRESSURE, 101_300.0),
        ("1.2 kPa", Unit.PRESSURE, 1200.0),
        ("12 g/m³", Unit.VAPOUR, 12.0),
        ("2.8 W/(m² K)", Unit.HEAT_TRANSFER, 2.8),
        ("12klx", Unit.ILLUMINANCE, 12_000.0),
        ("3.5", Unit.UV_INDEX, 3.5),
        ("1.2 kW", Unit.POWER, 1200.0),
        ("600 Wh", Unit.ELECTRICITY, 0.6),
        ("1 h 30 min", Unit.MINUTES, 90.0),
        ("2y", Unit.AGE, 730.485),
        ("2 y 1 m", Unit.AGE, 760.921875),
        ("18 months", Unit.AGE, 547.86375),
        ("7 weeks", Unit.AGE, 49.0),
        ("5d", Unit.AGE, 5.0),
    ],
)
def test_a_keeper_types_as_is_usual(text: str, unit: Unit, stored: float) -> None:
    assert parse_quantity(text, unit) == stored


@pytest.mark.parametrize(
    ("text", "stored"),
    [("0,9 kg", 900.0), ("12,5g", 12.5), ("0,125kg", 125.0), ("1234,567 g", 1234.567)],
)
def test_a_decimal_comma_is_read_where_it_can_be_nothing_else(text: str, stored: float) -> None:
    assert parse_quantity(text, Unit.MASS) == stored


@pytest.mark.parametrize("text", ["1,234g", "12,500 g", "999,999g", "1,234 lb 3 oz"])
def test_a_comma_that_may_group_thousands_is_refused_with_both_readings(text: str) -> None:
    assert "could mean" in refusal(text, Unit.MASS)


@pytest.mark.parametrize("text", ["1,234.5 g", "1.234,5 g", "1,234,567 g", "1.2.3g"])
def test_two_separators_are_refused(text: str) -> None:
    assert "thousands separators" in refusal(text, Unit.MASS)


def test_a_number_without_unit_is_refused_with_both_systems_offered() -> None:
    assert refusal("412", Unit.MASS) == "it 412 has no unit; write 412g or 412oz"
    assert refusal("86", Unit.TEMPERATURE).endswith("write 86C or 86F")


@pytest.mark.parametrize("unit", [u for u in units() if u not in BARE_UNITS])
def test_what_the_missing_unit_hint_offers_is_accepted(unit: Unit) -> None:
    offered = refusal("24", unit).split("; write ")[1].split(" or ")
    assert all(text.startswith("24") for text in offered)
    assert len({parse_quantity(text, unit) for text in offered}) == len(offered)
    assert len(offered) == min(2, len(measure_of(unit).scales))


@pytest.mark.parametrize("unit", units(), ids=lambda u: u.name)
def test_bare_takes_the_stored_unit_and_a_typed_unit_still_counts(unit: Unit) -> None:
    assert parse_quantity("1", unit, bare=True) == 1
    if unit is Unit.MASS:
        assert parse_quantity("1kg", unit, bare=True) == 1000


def test_zero_has_no_sign() -> None:
    for text, unit in (("-0g", Unit.MASS), ("-0C", Unit.TEMPERATURE), ("-0", Unit.RATIO)):
        assert math.copysign(1, parse_quantity(text, unit)) == 1


def test_bare_does_not_complete_half_a_compound() -> None:
    assert "no unit after 3" in refusal("1 lb 3", Unit.MASS, bare=True)


@pytest.mark.parametrize(
    ("text", "unit", "said"),
    [
        ("", Unit.MASS, "nothing was typed"),
        ("nan", Unit.MASS, "is no number"),
        ("inf g", Unit.MASS, "is no number"),
        ("about 400g", Unit.MASS, "is no number"),
        ("-4g", Unit.MASS, "below zero"),
        ("-1 cm", Unit.LENGTH, "below zero"),
        ("-2 ft 3 in", Unit.LENGTH, "below zero"),
        ("-0 ft 3 in", Unit.LENGTH, "below zero"),
        ("-1", Unit.DAYS, "below zero"),
        ("-300C", Unit.TEMPERATURE, "absolute zero"),
        ("1e99 g", Unit.MASS, "too large"),
        ("999999 w", Unit.DAYS, "too large"),
        ("9" * 80, Unit.MASS, "too long"),
        ("412 gr", Unit.MASS, "did you mean 'g'?"),
        ("3 ouncse", Unit.MASS, "did you mean 'oz'?"),
        ("30 cm", Unit.MASS, "no unit for mass"),
        ("3 months", Unit.DAYS, "no fixed number of days"),
        ("1 year", Unit.DAYS, "no fixed number of days"),
        ("1 1/2 lb", Unit.MASS, "fraction"),
        ("½ lb", Unit.MASS, "fraction"),
        ("1/2", Unit.RATIO, "fraction"),
        ("3-4 g", Unit.MASS, "one quantity"),
        ("1 234 g", Unit.MASS, "one quantity"),
        ("4ft -2in", Unit.LENGTH, "one quantity"),
        ("3 oz 1 lb", Unit.MASS, "larger first"),
        ("4 ft 2 cm", Unit.LENGTH, "larger first"),
        ("3 g 3 g", Unit.MASS, "larger first"),
        ("1 lb 20 oz", Unit.MASS, "20 oz, which is 1 lb or more"),
        ("1.5 lb 3 oz", Unit.MASS, "fraction before its last part"),
        ("12", Unit.PROBABILITY, "above 1"),
        ("2.5", Unit.COUNT, "no whole number"),
        ("5 €", Unit.MONEY, "no unit for money"),
    ],
)
def test_what_is_not_surely_understood_is_refused(text: str, unit: Unit, said: str) -> None:
    assert said in refusal(text, unit)


@given(st.text(), st.sampled_from(units()), st.booleans())
def test_any_text_gives_a_finite_number_or_one_readable_line(
    text: str, unit: Unit, bare: bool
) -> None:
    try:
        assert math.isfinite(parse_quantity(text, unit, bare=bare))
    except BadInput as refused:
        assert str(refused).isprintable()
        assert "; " in str(refused)


QUANTITY_LIKE = st.text(alphabet="0123456789.,-+ eglbozinftkm'\"%°/²", max_size=14)


@given(QUANTITY_LIKE, st.sampled_from(units()))
def test_text_that_resembles_quantities_is_read_or_refused_too(text: str, unit: Unit) -> None:
    try:
        assert math.isfinite(parse_quantity(text, unit))
    except BadInput as refused:
        assert str(refused).isprintable()


@given(st.integers(0, 10_000), st.integers(0, 159))
def test_pounds_and_ounces_add_up(pounds: int, tenths: int) -> None:
    together = parse_quantity(f"{pounds}lb {tenths / 10}oz", Unit.MASS)
    apart = parse_quantity(f"{pounds * 160 + tenths}e-1 oz", Unit.MASS)
    assert together == apart


@pytest.mark.parametrize("unit", units(), ids=lambda u: u.name)
def test_everything_the_typing_help_shows_is_accepted(unit: Unit) -> None:
    shown = typing_help(unit).split(" (")[0]
    for example in re.split(", | or ", shown):
        assert parse_quantity(example, unit) > 0


@pytest.mark.parametrize(
    ("value", "unit", "metric", "imperial"),
    [
        (412.0, Unit.MASS, "412 g", "14.53 oz"),
        (412.5, Unit.MASS, "412.5 g", "14.55 oz"),
        (5.25, Unit.MASS, "5.25 g", "0.185 oz"),
        (1240.0, Unit.MASS, "1.24 kg", "2 lb 11.7 oz"),
        (1243.0, Unit.MASS, "1.243 kg", "2 lb 11.8 oz"),
        (999.97, Unit.MASS, "1 kg", "2 lb 3.3 oz"),
        (453.59237, Unit.MASS, "453.6 g", "1 lb"),
        (0.05, Unit.MASS, "50 mg", "0.00176 oz"),
        (0.0, Unit.MASS, "0 g", "0 oz"),
        (-412.5, Unit.MASS, "-412.5 g", "-14.55 oz"),
        (84.3, Unit.LENGTH, "84.3 mm", "3.32 in"),
        (1219.2, Unit.LENGTH, "121.92 cm", "48 in"),
        (3200.4, Unit.LENGTH, "320.04 cm", "10 ft 6 in"),
        (720_000.0, Unit.AREA, "7200 cm²", "7.75 ft²"),
        (30.0, Unit.TEMPERATURE, "30 °C", "86 °F"),
        (-0.01, Unit.TEMPERATURE, "0 °C", "32 °F"),
        (250.0, Unit.VOLUME, "250 ml", "8.45 fl oz"),
        (8.1, Unit.ENERGY_RATE, "8.1 kJ/day", "8.1 kJ/day"),
        (1.2, Unit.GROWTH_RATE, "1.2 g/day", "0.296 oz/week"),
        (13 + 1 / 3, Unit.HOURS, "13 h 20 min", "13 h 20 min"),
        (0.75, Unit.HOURS, "45 min", "45 min"),
        (0.9999, Unit.HOURS, "1 h", "1 h"),
        (12.0, Unit.DAYS, "12 days", "12 days"),
        (1.0, Unit.DAYS, "1 day", "1 day"),
        (0.5, Unit.DAYS, "0.5 days", "0.5 days"),
        (12.0, Unit.PERCENT, "12 %", "12 %"),
        (3.0, Unit.COUNT, "3", "3"),
        (12345.6, Unit.RATIO, "12346", "12346"),
        (0.1234, Unit.PROBABILITY, "0.123", "0.123"),
        (0.99996, Unit.PROBABILITY, "0.99996", "0.99996"),
        (1.0, Unit.PROBABILITY, "1", "1"),
        (12.5, Unit.MONEY, "12.50", "12.50"),
        (0.0, Unit.MONEY, "0.00", "0.00"),
        (8.0, Unit.TEMPERATURE_DIFFERENCE, "8 °C", "14.4 °F"),
        (-8.0, Unit.TEMPERATURE_DIFFERENCE, "-8 °C", "-14.4 °F"),
        (24.0, Unit.DEGREE_HOURS, "24 °C·h", "43.2 °F·h"),
        (12.0, Unit.VAPOUR, "12 g/m³", "12 g/m³"),
        (1234.0, Unit.PRESSURE, "1.234 kPa", "1.234 kPa"),
        (101_325.0, Unit.PRESSURE, "1013.3 hPa", "1013.3 hPa"),
        (12_000.0, Unit.ILLUMINANCE, "12 klx", "12 klx"),
        (3.52, Unit.UV_INDEX, "3.5 UVI", "3.5 UVI"),
        (75.0, Unit.POWER, "75 W", "75 W"),
        (1.8, Unit.ELECTRICITY, "1.8 kWh", "1.8 kWh"),
        (2.8, Unit.HEAT_TRANSFER, "2.8 W/m²K", "2.8 W/m²K"),
        (90.0, Unit.MINUTES, "1 h 30 min", "1 h 30 min"),
        (0.0, Unit.AGE, "0 days", "0 days"),
        (1.0, Unit.AGE, "1 day", "1 day"),
        (5.0, Unit.AGE, "5 days", "5 days"),
        (27.4, Unit.AGE, "27 days", "27 days"),
        (28.0, Unit.AGE, "4 weeks", "4 weeks"),
        (51.0, Unit.AGE, "7 weeks", "7 weeks"),
        (200.0, Unit.AGE, "7 months", "7 months"),
        (365.0, Unit.AGE, "1 y", "1 y"),
        (759.0, Unit.AGE, "2 y 1 m", "2 y 1 m"),
        (3652.0, Unit.AGE, "10 y", "10 y"),
        (math.nan, Unit.MASS, "not known", "not known"),
        (math.inf, Unit.MASS, "not known", "not known"),
    ],
)
def test_values_are_shown_readably(value: float, unit: Unit, metric: str, imperial: str) -> None:
    assert format_quantity(value, unit, Display.METRIC) == metric
    assert format_quantity(value, unit, Display.IMPERIAL) == imperial


def test_digits_rounds_what_is_less_sure() -> None:
    assert format_quantity(412.5, Unit.MASS, Display.METRIC, digits=2) == "410 g"
    assert format_quantity(1243, Unit.MASS, Display.METRIC, digits=2) == "1.2 kg"
    assert format_quantity(1010, Unit.MASS, Display.IMPERIAL, digits=2) == "2 lb 4 oz"


@given(st.integers(1, 99_999).filter(lambda n: n < 10_000 or n % 10 == 0))
def test_a_mass_typed_to_a_tenth_of_a_gram_is_shown_as_typed(tenths: int) -> None:
    typed = tenths / 10
    shown = format_quantity(typed, Unit.MASS, Display.METRIC)
    assert parse_quantity(shown, Unit.MASS) == typed


@given(st.integers(1, 50_000))
def test_a_length_typed_to_a_tenth_of_a_millimetre_is_shown_as_typed(tenths: int) -> None:
    shown = format_quantity(tenths / 10, Unit.LENGTH, Display.METRIC)
    assert parse_quantity(shown, Unit.LENGTH) == tenths / 10


@given(st.integers(1, 16 * 60 * 10))
def test_pounds_and_ounces_typed_to_a_tenth_are_shown_as_typed(tenths: int) -> None:
    typed = parse_quantity(f"{tenths}e-1 oz", Unit.MASS)
    shown = format_quantity(typed, Unit.MASS, Display.IMPERIAL)
    assert parse_quantity(shown, Unit.MASS) == pytest.approx(typed, rel=1e-12)


# Half a step of what is shown in stored units; three significant digits at least otherwise.
HALF_STEP = {
    Unit.MASS: 0.005,
    Unit.LENGTH: 0.05,
    Unit.AREA: 0.05,
    Unit.TEMPERATURE: 0.05,
    Unit.TEMPERATURE_DIFFERENCE: 0.05,
    Unit.UV_INDEX: 0.05,
    Unit.POWER: 0.5,
    Unit.PRESSURE: 0.5,
    Unit.VOLUME: 0.0005,
    Unit.HOURS: 0.5 / 60,
    Unit.MINUTES: 0.5,
    Unit.AGE: 15.3,
    Unit.MONEY: 0.005,
}


@given(
    st.floats(0.01, 90_000),
    st.sampled_from([u for u in units() if u not in (Unit.COUNT, Unit.PROBABILITY)]),
    st.sampled_from(DISPLAYS),
)
def test_what_is_shown_reads_back_within_what_is_shown(
    value: float, unit: Unit, display: Display
) -> None:
    shown = format_quantity(value, unit, display)
    back = parse_quantity(shown, unit, display=display)
    assert back == pytest.approx(value, rel=0.00501, abs=HALF_STEP.get(unit, 0) + 1e-9)
    assert format_quantity(back, unit, display) == shown


@given(st.floats(0, 100_000))
def test_an_age_is_shown_to_the_half_of_its_smallest_word(days: float) -> None:
    shown = format_quantity(days, Unit.AGE, Display.METRIC)
    half = {"d": 0.5, "w": 3.5, "m": 15.3, "y": 15.3}[shown.split()[-1][0]]
    assert abs(parse_quantity(shown, Unit.AGE) - days) <= half


@given(st.floats(allow_nan=True), st.sampled_from(units()), st.sampled_from(DISPLAYS))
def test_every_float_can_be_shown(value: float, unit: Unit, display: Display) -> None:
    assert format_quantity(value, unit, display).isprintable()
    convert_for_display(value, unit, display)


@given(st.floats(0.5, 1, exclude_max=True))
def test_nearly_certain_never_reads_as_certain(probability: float) -> None:
    assume(1 - probability > 1e-11)
    assert format_quantity(probability, Unit.PROBABILITY, Display.METRIC) != "1"


@pytest.mark.parametrize(
    ("value", "unit", "metric", "imperial"),
    [
        (2834.9523125, Unit.MASS, (2834.9523125, "g"), (100.0, "oz")),
        (1219.2, Unit.LENGTH, (121.92, "cm"), (48.0, "in")),
        (64516.0, Unit.AREA, (645.16, "cm²"), (100.0, "in²")),
        (30.0, Unit.TEMPERATURE, (30.0, "°C"), (86.0, "°F")),
        (29.5735295625, Unit.VOLUME, (29.5735295625, "ml"), (1.0, "fl oz")),
        (12.0, Unit.DAYS, (12.0, "days"), (12.0, "days")),
        (0.5, Unit.PROBABILITY, (0.5, ""), (0.5, "")),
    ],
)
def test_a_column_has_one_unit(
    value: float, unit: Unit, metric: tuple[float, str], imperial: tuple[float, str]
) -> None:
    assert convert_for_display(value, unit, Display.METRIC) == metric
    assert convert_for_display(value, unit, Display.IMPERIAL) == imperial
