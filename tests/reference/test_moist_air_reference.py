"""Moist air over a grid against CoolProp, whose humid air follows ASHRAE RP-1485.

Both are held to what leaving out the enhancement by air costs (below 0.5 % of the pressure).
CoolProp is imported late: it takes 4 s, which else each process of a run pays that finds tests.
"""

from __future__ import annotations

from itertools import product

import pytest

from warmside.plugins.habitat.air.moist import (
    dew_point_c,
    humidity_at,
    saturation_pa,
    vapour_g_per_m3,
)

NORMAL_PA = 101325.0
AIR = list(product(range(5, 46, 5), (20, 40, 60, 80, 95)))


def of(what: str, celsius: float, percent: float) -> float:
    """A quantity of humid air at normal pressure, by CoolProp."""
    return humid(what, "T", celsius + 273.15, "P", NORMAL_PA, "R", percent / 100)


def humid(what: str, *state: str | float) -> float:
    from CoolProp.HumidAirProp import HAPropsSI

    return float(HAPropsSI(what, *state))


def test_saturation_is_that_of_water() -> None:
    """Against the equation of state of water (IAPWS-95)."""
    from CoolProp.CoolProp import PropsSI

    for celsius in range(1, 81):
        assert saturation_pa(celsius) == pytest.approx(
            PropsSI("P", "T", celsius + 273.15, "Q", 0, "Water"), rel=3e-4
        )


def test_dew_points_over_the_grid() -> None:
    for celsius, percent in AIR:
        found = of("D", celsius, percent) - 273.15
        assert dew_point_c(celsius, percent) == pytest.approx(found, abs=0.05), (celsius, percent)


def test_water_in_the_air_over_the_grid() -> None:
    """Grams in 1 m3: humidity ratio over the volume that a kg of dry air takes."""
    for celsius, percent in AIR:
        grams = 1000 * of("W", celsius, percent) / of("V", celsius, percent)
        assert vapour_g_per_m3(celsius, percent) == pytest.approx(grams, rel=7e-3)


def test_the_same_vapour_elsewhere_over_the_grid() -> None:
    """The humidity ratio stays as it is while the air is warmed by 7 degrees."""
    for celsius, percent in AIR:
        ratio = of("W", celsius, percent)
        warmed = ("T", celsius + 280.15, "P", NORMAL_PA, "W", ratio)
        there = 100 * humid("R", *warmed)
        assert humidity_at(celsius, percent, celsius + 7) == pytest.approx(there, rel=3e-3)
