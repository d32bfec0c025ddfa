"""Moist air against printed tables and by what must hold for all air."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from warmside.api import BadInput
from warmside.plugins.habitat.air.moist import (
    check_air,
    dew_point_c,
    humidity_at,
    saturation_pa,
    vapour_g_per_m3,
)
from warmside.plugins.habitat.air.water import (
    bowl_g_per_h,
    grams_to_reach,
    hours_to_dry,
    humidity_kept_percent,
)
from warmside.plugins.habitat.air.watered import watered

temperatures = st.floats(0, 50)
humidities = st.floats(1, 100)


@pytest.mark.parametrize(
    ("celsius", "pascal", "within"),
    [
        (5, 872.6, 3e-4),  # ASHRAE Fundamentals 2017, chapter 1, table 3, as quoted
        (25, 3169.7, 3e-4),
        (50, 12351.3, 3e-4),
        (20, 2338.8, 2e-5),  # the equation itself, worked out apart
        (30, 4246.0, 2e-5),
        (35, 5627.8, 2e-5),
    ],
)
def test_saturation(celsius: float, pascal: float, within: float) -> None:
    assert saturation_pa(celsius) == pytest.approx(pascal, rel=within)


def test_ice_and_water_meet_at_the_freezing_point() -> None:
    """Both equations give 611.2 Pa within a part in a thousand (triple point 611.66 Pa)."""
    assert saturation_pa(-1e-9) == pytest.approx(saturation_pa(0.0), rel=1e-3)
    assert saturation_pa(0.01) == pytest.approx(611.66, rel=1e-3)


@pytest.mark.parametrize(
    ("celsius", "percent", "dew"),
    [(25, 50, 13.86), (30, 60, 21.39), (30, 80, 26.17), (20, 70, 14.37), (35, 30, 14.84)],
)
def test_dew_points(celsius: float, percent: float, dew: float) -> None:
    """By the ASHRAE equation, worked out apart; 0.02 degrees."""
    assert dew_point_c(celsius, percent) == pytest.approx(dew, abs=0.02)


def test_the_first_example_of_ashrae() -> None:
    """40 C dry bulb, humidity ratio 0.0065 at 101325 Pa: 14 % (Example 1, read from a chart).

    Its dew point of 7 C is read from the chart, too, to a degree.
    """
    pressure = 101_325 * 0.0065 / (0.621945 + 0.0065)
    percent = 100 * pressure / saturation_pa(40)
    assert percent == pytest.approx(14, abs=0.5)
    assert dew_point_c(40, percent) == pytest.approx(7, abs=1)


def test_water_in_the_air() -> None:
    """25 C, 50 %: 11.52 g/m3 (worked out apart)."""
    assert vapour_g_per_m3(25, 50) == pytest.approx(11.52, abs=0.02)


@given(temperatures, humidities, temperatures)
def test_there_and_back_is_the_same_air(celsius: float, percent: float, other: float) -> None:
    there = humidity_at(celsius, percent, other)
    if there < 100:
        assert humidity_at(other, there, celsius) == pytest.approx(percent)
        assert dew_point_c(other, there) == pytest.approx(dew_point_c(celsius, percent), abs=1e-6)


@given(temperatures, humidities)
def test_air_at_its_dew_point_is_full(celsius: float, percent: float) -> None:
    dew = dew_point_c(celsius, percent)
    assert dew <= celsius + 1e-6
    assert humidity_at(celsius, percent, dew) == pytest.approx(100, abs=1e-5)


@given(temperatures, humidities, temperatures)
def test_warmer_air_is_drier(celsius: float, percent: float, other: float) -> None:
    if other > celsius:
        assert humidity_at(celsius, percent, other) <= percent + 1e-9


@pytest.mark.parametrize(("celsius", "percent"), [(86, 50), (-41, 50), (20, 101), (20, -1)])
def test_air_that_no_enclosure_has_is_refused(celsius: float, percent: float) -> None:
    with pytest.raises(BadInput):
        check_air(celsius, percent)


def test_dry_air_has_no_dew_point() -> None:
    with pytest.raises(BadInput, match="above 0"):
        dew_point_c(20, 0)


def test_a_bowl() -> None:
    """0.02 m2, 25 C, 50 %, still air: 4.23 g/h, 101.5 g a day (formula of ASHRAE in SI)."""
    assert bowl_g_per_h(0.02, 25, 25, 50) == pytest.approx(4.23, abs=0.01)
    assert 24 * bowl_g_per_h(0.02, 25, 25, 50) == pytest.approx(101.5, abs=0.2)
    assert bowl_g_per_h(0.02, 15, 30, 90) == 0  # cold water in humid air takes water up


def test_a_pool_hall() -> None:
    """25 m x 20 m, 0.5 m/s, humidity ratios 0.019826 and 0.0115: about 0.04 kg/s by the other
    formula that is printed with it; this one stays within a tenth of it."""
    ratio = lambda w: 101_325 * w / (0.621945 + w)  # noqa: E731
    percent = 100 * ratio(0.0115) / saturation_pa(25)
    kg_per_s = bowl_g_per_h(500, 25, 25, percent, 0.5) / 3600 / 1000
    assert kg_per_s == pytest.approx(0.0399, rel=0.15)


def test_grams_that_raise_the_humidity() -> None:
    assert grams_to_reach(0.2, 25, 50, 75) == pytest.approx(0.2 * 11.52 / 2, abs=0.01)
    assert grams_to_reach(0.2, 25, 80, 60) == 0


def test_a_bowl_against_ventilation() -> None:
    kept = humidity_kept_percent(28, 21, 45, 2.0, 0.5)
    assert kept == pytest.approx(100 * (vapour_g_per_m3(21, 45) + 4.0) / vapour_g_per_m3(28, 100))
    assert humidity_kept_percent(28, 21, 45, 1000.0, 0.5) == 100


def test_misted_air_dries_as_it_is_changed() -> None:
    """Half of the excess is gone after ln 2 changes of air."""
    assert hours_to_dry(20, 10, 15, 1.0) == pytest.approx(0.6931, abs=1e-4)
    assert hours_to_dry(12, 10, 15, 1.0) == 0
    assert hours_to_dry(20, 16, 15, 1.0) is None
    assert hours_to_dry(20, 10, 15, 0.0) is None


def test_air_that_is_changed_once_an_hour_loses_half_in_ln_2_hours() -> None:
    """A well mixed space: exp(-n t) (textbook); what is lost at first is made good each hour."""
    found = watered(0.5, 27, (45, 70), 1.0, None)
    assert found.half_lost_h == pytest.approx(0.6931, abs=1e-4)
    wanted = 0.5 * (vapour_g_per_m3(27, 70) - vapour_g_per_m3(27, 45))
    assert found.grams == pytest.approx(wanted) and found.kept_up_g_per_h == pytest.approx(wanted)
    assert found.bowl_g_per_h is None


@pytest.mark.parametrize(
    ("volume", "percents"), [(0.0, (45, 70)), (0.5, (70, 70)), (0.5, (45, 120))]
)
def test_water_that_cannot_be_added(volume: float, percents: tuple[float, float]) -> None:
    with pytest.raises(BadInput):
        watered(volume, 27, percents, 1.0, None)
