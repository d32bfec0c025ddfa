"""What an animal burns at the temperatures it lives at."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from warmside.core.values.basis import Basis, Estimate, Mark
from warmside.core.values.errors import BadInput
from warmside.core.values.units import Unit
from warmside.plugins.feeding.energy.clinical import FORMS, ClinicalForm
from warmside.plugins.feeding.energy.rates import (
    field_kj_per_day,
    mixed_day,
    needs,
    resting_kj_per_day,
    standard_kj_per_day,
    steady_day,
    what_if,
)

masses = st.floats(0.1, 200_000)
temperatures = st.floats(0, 45)


def grams(value: float, low: float | None = None, high: float | None = None) -> Estimate:
    return Estimate(value, low or value, high or value, Unit.MASS, Basis("given"))


def test_what_if_gives_the_three_rates_with_source_and_range() -> None:
    found = what_if(500, 30)
    assert found.standard.value == pytest.approx(12.489, rel=1e-4)
    assert found.resting.value == pytest.approx(17.240, rel=1e-4)
    assert found.field.value == pytest.approx(49.163, rel=1e-4)
    for rate in (found.standard, found.resting, found.field):
        assert rate.value is not None
        assert rate.low < rate.value < rate.high
        assert rate.unit is Unit.ENERGY_RATE
        assert rate.basis.source.mark is Mark.PUBLISHED


@given(masses, temperatures, temperatures, st.floats(0, 24))
def test_a_mixed_day_lies_between_its_sides(
    mass_g: float, warm_c: float, cool_c: float, hours: float
) -> None:
    day = mixed_day((warm_c, warm_c), (cool_c, cool_c), hours)
    rate = needs(grams(mass_g), day).standard.value
    sides = sorted((standard_kj_per_day(mass_g, warm_c), standard_kj_per_day(mass_g, cool_c)))
    assert rate is not None
    assert sides[0] * 0.999999 <= rate <= sides[1] * 1.000001


def test_rates_are_averaged_and_not_temperatures() -> None:
    mixed = needs(grams(300), mixed_day((36, 36), (20, 20), 12)).resting.value
    assert mixed == pytest.approx((resting_kj_per_day(300, 36) + resting_kj_per_day(300, 20)) / 2)
    assert mixed is not None and mixed > 1.1 * resting_kj_per_day(300, 28)


@given(masses, masses, temperatures)
def test_a_heavier_animal_burns_more(a: float, b: float, temperature_c: float) -> None:
    light, heavy = sorted((a, b))
    assert standard_kj_per_day(light, temperature_c) <= standard_kj_per_day(heavy, temperature_c)
    assert field_kj_per_day(light) <= field_kj_per_day(heavy)


def test_a_range_of_mass_and_temperature_widens_the_range() -> None:
    sure = needs(grams(500), steady_day(28)).resting
    unsure = needs(grams(500, 450, 600), mixed_day((26, 30), (26, 30), 12)).resting
    assert unsure.low < sure.low < sure.high < unsure.high


def test_the_basis_says_the_temperatures() -> None:
    rule = needs(grams(500), mixed_day((29, 31), (24, 24), 10)).resting.basis.rule
    assert rule == "resting rate at 29 to 31 °C 10 h, 24 °C 14 h"


@pytest.mark.parametrize("temperature_c", [-0.1, 45.1, 90, float("nan")])
def test_temperatures_outside_0_to_45_are_refused(temperature_c: float) -> None:
    with pytest.raises(BadInput, match="outside 0 to 45 °C"):
        what_if(500, temperature_c)


@pytest.mark.parametrize("mass_g", [0, -5, 1e6, float("nan"), float("inf")])
def test_zero_and_absurd_masses_are_refused(mass_g: float) -> None:
    with pytest.raises(BadInput, match="cannot be right"):
        what_if(mass_g, 30)


@pytest.mark.parametrize("hours", [-1, 25])
def test_a_day_has_24_hours(hours: float) -> None:
    with pytest.raises(BadInput, match="give 0 to 24"):
        mixed_day((30, 32), (22, 24), hours)


@pytest.mark.parametrize("form", FORMS, ids=lambda form: form.name)
def test_clinical_forms_lie_above_the_resting_rate(form: ClinicalForm) -> None:
    assert form.times_standard(1000) > 1.38
