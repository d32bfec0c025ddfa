"""Each quantity is shown and typed as the collection has it, and that can change any day."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from warmside.core.values.display import Display, parse_display, stored_display
from warmside.core.values.errors import BadInput
from warmside.core.values.measures.measure import Bare, measure_of
from warmside.core.values.quantities import convert_for_display, format_quantity, parse_quantity
from warmside.core.values.units import Unit, units

CHOICES = [
    (unit.name, scale.names[0])
    for unit in units()
    for scale in measure_of(unit).scales
    if scale.names[0]
]
DISPLAYS = st.builds(
    lambda preset, chosen: parse_display(", ".join([preset, *(f"{u}={s}" for u, s in chosen)])),
    st.sampled_from(["metric", "us trade", "imperial"]),
    st.lists(st.sampled_from(CHOICES), max_size=4),
)


def refusal(text: str) -> str:
    with pytest.raises(BadInput) as caught:
        parse_display(text)
    return str(caught.value)


@pytest.mark.parametrize(
    ("unit", "value", "shown"),
    [
        (Unit.MASS, 412.0, ("412 g", "412 g", "14.53 oz")),
        (Unit.LENGTH, 1219.2, ("121.92 cm", "48 in", "48 in")),
        (Unit.AREA, 64516.0, ("645 cm²", "100 in²", "100 in²")),
        (Unit.TEMPERATURE, 30.0, ("30 °C", "86 °F", "86 °F")),
        (Unit.TEMPERATURE_DIFFERENCE, 8.0, ("8 °C", "14.4 °F", "14.4 °F")),
        (Unit.DEGREE_HOURS, 10.0, ("10 °C·h", "18 °F·h", "18 °F·h")),
        (Unit.VOLUME, 250.0, ("250 ml", "250 ml", "8.45 fl oz")),
        (Unit.GROWTH_RATE, 1.2, ("1.2 g/day", "1.2 g/day", "0.296 oz/week")),
    ],
)
def test_presets(unit: Unit, value: float, shown: tuple[str, str, str]) -> None:
    """What US keepers use is common practice, no source."""
    presets = (Display.METRIC, Display.US_TRADE, Display.IMPERIAL)
    assert tuple(format_quantity(value, unit, d) for d in presets) == shown


def test_one_quantity_may_be_shown_otherwise_than_the_rest() -> None:
    display = parse_display("imperial, mass=g")
    assert format_quantity(412.0, Unit.MASS, display) == "412 g"
    assert format_quantity(1219.2, Unit.LENGTH, display) == "48 in"


def test_what_follows_from_a_quantity_is_shown_like_it_unless_chosen_itself() -> None:
    display = parse_display("metric, temperature=F, length=in, mass=oz")
    assert format_quantity(8.0, Unit.TEMPERATURE_DIFFERENCE, display) == "14.4 °F"
    assert format_quantity(64516.0, Unit.AREA, display) == "100 in²"
    assert format_quantity(1.2, Unit.GROWTH_RATE, display) == "0.296 oz/week"
    apart = parse_display("temperature_difference=C", display)
    assert format_quantity(8.0, Unit.TEMPERATURE_DIFFERENCE, apart) == "8 °C"


def test_kelvin_is_no_system_that_others_follow() -> None:
    display = parse_display("temperature=K")
    assert format_quantity(30.0, Unit.TEMPERATURE, display) == "303 K"
    assert format_quantity(8.0, Unit.TEMPERATURE_DIFFERENCE, display) == "8 °C"


@pytest.mark.parametrize(
    ("choice", "unit", "value", "shown"),
    [
        ("mass=kg", Unit.MASS, 412.0, "0.412 kg"),
        ("length=mm", Unit.LENGTH, 1219.2, "1219 mm"),
        ("mass=lb", Unit.MASS, 538.64, "1.19 lb"),
        ("energy=kcal", Unit.ENERGY, 41.84, "10 kcal"),
        ("age=d", Unit.AGE, 759.0, "2 y 1 m"),
    ],
)
def test_a_scale_without_a_ladder_is_used_alone(
    choice: str, unit: Unit, value: float, shown: str
) -> None:
    assert format_quantity(value, unit, parse_display(choice)) == shown


def test_choices_alone_are_added_to_what_was_shown() -> None:
    now = parse_display("mass=oz", Display.US_TRADE)
    assert now.text == "us trade, mass=oz"
    assert parse_display("length=cm", now).text == "us trade, length=cm, mass=oz"
    assert parse_display("us-trade", now) == Display.US_TRADE


@pytest.mark.parametrize(
    ("text", "said"),
    [
        ("metrical", "did you mean 'metric'?"),
        ("", "units are metric, us trade, imperial"),
        ("mass=stone", "mass cannot be shown in 'stone'; it can be in: g, kg, mg, oz, lb"),
        ("mas=g", "did you mean 'mass'?"),
        ("metric, mass", "such as mass=g, not 'mass'"),
        ("count=g", "it can be in: plain numbers"),
        ("mass=", "mass cannot be shown in 'nothing'"),
    ],
)
def test_what_cannot_be_shown_is_refused_with_what_can(text: str, said: str) -> None:
    assert said in refusal(text)


@given(DISPLAYS)
def test_what_is_stored_is_read_back_and_may_be_typed(display: Display) -> None:
    assert stored_display(display.text) == display
    assert parse_display(display.text) == display


@given(DISPLAYS, st.sampled_from(units()), st.floats(0, 1000))
def test_any_display_shows_any_value_in_one_unit_a_column(
    display: Display, unit: Unit, value: float
) -> None:
    shown, symbol = convert_for_display(value, unit, display)
    assert symbol == convert_for_display(0.0, unit, display)[1]
    if measure_of(unit).bare is not Bare.NEVER and unit is not Unit.COUNT and shown >= 0:
        typed = f"{shown:.12f}"
        if unit is Unit.PROBABILITY:
            return
        assert parse_quantity(typed, unit, display=display) == pytest.approx(value, abs=1e-6)


def test_a_choice_of_a_plugin_that_is_gone_is_kept_and_harmless() -> None:
    display = stored_display("us trade, brine.salt=ppt, mass=stone")
    assert format_quantity(412.0, Unit.MASS, display) == "412 g"
    assert "brine.salt=ppt" in display.text


def test_a_preset_of_a_newer_program_shows_as_metric() -> None:
    assert stored_display("trade of tomorrow, mass=oz").text == "metric, mass=oz"


@pytest.mark.parametrize(
    ("display", "unit", "typed", "stored"),
    [
        (Display.METRIC, Unit.MASS, "660", 660.0),
        (Display.METRIC, Unit.LENGTH, "48", 480.0),
        (Display.METRIC, Unit.VOLUME, "250", 250.0),
        (Display.METRIC, Unit.TEMPERATURE, "31", 31.0),
        (Display.US_TRADE, Unit.MASS, "660", 660.0),
        (Display.US_TRADE, Unit.LENGTH, "48", 1219.2),
        (Display.US_TRADE, Unit.TEMPERATURE, "86", 30.0),
        (Display.IMPERIAL, Unit.MASS, "16", 453.59237),
        (parse_display("temperature=K"), Unit.TEMPERATURE, "300", 26.85),
    ],
)
def test_a_number_without_a_unit_is_as_the_collection_shows_it(
    display: Display, unit: Unit, typed: str, stored: float
) -> None:
    assert parse_quantity(typed, unit, display=display) == stored


def test_a_typed_unit_counts_whatever_is_shown() -> None:
    assert parse_quantity("31C", Unit.TEMPERATURE, display=Display.US_TRADE) == 31.0


def test_a_column_that_names_its_unit_keeps_it() -> None:
    assert parse_quantity("31", Unit.TEMPERATURE, bare=True, display=Display.US_TRADE) == 31.0


def test_an_age_is_never_a_plain_number() -> None:
    """Two could be weeks or years."""
    with pytest.raises(BadInput, match="has no unit"):
        parse_quantity("2", Unit.AGE, display=Display.METRIC)
