"""Units are an open list: the core's keep their endings, a plugin's join them, none clash."""

from __future__ import annotations

import sys
import types
from collections.abc import Iterator
from unittest import mock

import pytest

from warmside.core.values import units as registry
from warmside.core.values.measures.measure import Measure, measure_of, style
from warmside.core.values.quantities import Display, format_quantity, parse_quantity
from warmside.core.values.scales import scale
from warmside.core.values.units import Unit, own_unit, unit_named, units

ENDINGS = {
    Unit.MASS: "_g",
    Unit.LENGTH: "_mm",
    Unit.AREA: "_mm2",
    Unit.VOLUME: "_ml",
    Unit.TEMPERATURE: "_c",
    Unit.TEMPERATURE_DIFFERENCE: "_k",
    Unit.DEGREE_HOURS: "_k_hours",
    Unit.VAPOUR: "_g_per_m3",
    Unit.PRESSURE: "_pa",
    Unit.ILLUMINANCE: "_lux",
    Unit.UV_INDEX: "_uvi",
    Unit.ENERGY: "_kj",
    Unit.ENERGY_RATE: "_kj_per_day",
    Unit.POWER: "_w",
    Unit.ELECTRICITY: "_kwh",
    Unit.HEAT_TRANSFER: "_w_per_m2k",
    Unit.GROWTH_RATE: "_g_per_day",
    Unit.MINUTES: "_minutes",
    Unit.HOURS: "_hours",
    Unit.DAYS: "_days",
    Unit.AGE: "_days",
    Unit.PERCENT: "_percent",
    Unit.COUNT: "",
    Unit.RATIO: "",
    Unit.PROBABILITY: "",
    Unit.MONEY: "",
}
"""What scripts read; a changed ending breaks them."""

SALT = scale("ppt", "ppt")


@pytest.fixture
def brine() -> Iterator[str]:
    """A module of an invented plugin that holds a measure; what it declares is forgotten again."""
    module = types.ModuleType("brine_measures")
    module.SALT = Measure((SALT,), style(SALT), ("4ppt",), "salt")  # type: ignore[attr-defined]
    with (
        mock.patch.dict(sys.modules, {module.__name__: module}),
        mock.patch.dict(registry._KNOWN),
    ):
        yield "brine_measures:SALT"


def test_the_keys_of_json_end_as_they_always_did() -> None:
    assert {unit: unit.suffix for unit in units()} == ENDINGS


@pytest.mark.parametrize("unit", units(), ids=lambda u: u.name)
def test_every_unit_has_a_measure_that_can_be_typed_and_shown(unit: Unit) -> None:
    measure = measure_of(unit)
    assert measure.metric.table in measure.scales
    assert {r.scale for r in measure.metric.rungs} <= set(measure.scales)
    assert measure.scales[0].times == measure.scales[0].over == 1 and measure.scales[0].zero == 0


def test_a_plugins_unit_is_typed_shown_and_known_by_name(brine: str) -> None:
    salt = own_unit("brine.salt", "ppt", brine)
    assert unit_named("brine.salt") is salt
    assert salt.suffix == "_ppt"
    assert parse_quantity("4 ppt", salt) == 4
    assert format_quantity(4, salt, Display.IMPERIAL) == "4 ppt"
    assert "brine.salt" in [u.name for u in units()]


def test_declaring_a_unit_again_gives_the_same(brine: str) -> None:
    assert own_unit("brine.salt", "ppt", brine) is own_unit("brine.salt", "ppt", brine)


def test_a_name_is_given_once(brine: str) -> None:
    own_unit("brine.salt", "ppt", brine)
    with pytest.raises(ValueError, match=r"two units are called 'brine\.salt'"):
        own_unit("brine.salt", "g_per_l", brine)


@pytest.mark.parametrize("name", ["mass", "salt", "Brine.salt", "brine.", "brine.a b"])
def test_a_plugins_unit_carries_its_plugins_name(name: str, brine: str) -> None:
    with pytest.raises(ValueError, match="must be named <plugin>"):
        own_unit(name, "ppt", brine)


def test_a_measure_that_is_none_is_told(brine: str) -> None:
    wrong = own_unit("brine.wrong", "x", "warmside.core.values.scales:Scale")
    with pytest.raises(TypeError, match="is no Measure"):
        measure_of(wrong)
