"""Moist air at normal pressure: saturation, vapour, relative humidity, dew point.

Saturation pressure by the formulas of ASHRAE Fundamentals 2017, chapter 1, equations 5 and 6
(Hyland & Wexler 1983), for -100 to 200 degrees C; the enhancement by air (below 0.5 %) is left out.
"""

from __future__ import annotations

import math

from warmside.api import BadInput

COLDEST_C, HOTTEST_C = -40.0, 80.0
"""Temperatures of the air of an enclosure that are reckoned with."""
GAS_CONSTANT = 8.314462618
MOLAR_MASS_WATER = 18.01528e-3  # kg/mol
_ICE = (
    -5.6745359e3,
    6.3925247,
    -9.677843e-3,
    6.2215701e-7,
    2.0747825e-9,
    -9.484024e-13,
    4.1635019,
)
_WATER = (-5.8002206e3, 1.3914993, -4.8640239e-2, 4.1764768e-5, -1.4452093e-8, 0.0, 6.5459673)


def saturation_pa(celsius: float) -> float:
    """Pressure of saturated vapour in Pa over water, below 0 degrees C over ice."""
    kelvin = celsius + 273.15
    c = _ICE if celsius < 0 else _WATER
    powers = c[1] + c[2] * kelvin + c[3] * kelvin**2 + c[4] * kelvin**3 + c[5] * kelvin**4
    return math.exp(c[0] / kelvin + powers + c[6] * math.log(kelvin))


def vapour_pa(celsius: float, humidity_percent: float) -> float:
    """Pressure of the vapour in air of that temperature and relative humidity, in Pa."""
    return humidity_percent / 100 * saturation_pa(celsius)


def vapour_g_per_m3(celsius: float, humidity_percent: float) -> float:
    """Water in the air in g/m3 (ideal gas)."""
    pressure = vapour_pa(celsius, humidity_percent)
    return 1000 * pressure * MOLAR_MASS_WATER / (GAS_CONSTANT * (celsius + 273.15))


def humidity_at(celsius: float, humidity_percent: float, other_c: float) -> float:
    """Relative humidity in % where the same air is at another temperature.

    The vapour pressure is the same all over one air space; 100 is the most, the rest condenses.
    """
    return min(100.0, 100 * vapour_pa(celsius, humidity_percent) / saturation_pa(other_c))


def dew_point_c(celsius: float, humidity_percent: float) -> float:
    """The temperature at which the vapour of the air begins to condense, in degrees C.

    Raises BadInput for dry air, which has none.
    """
    if humidity_percent <= 0:
        raise BadInput("air without any water has no dew point; give a humidity above 0 %")
    wanted = vapour_pa(celsius, humidity_percent)
    low, high = -100.0, celsius
    while high - low > 1e-9:
        middle = (low + high) / 2
        low, high = (middle, high) if saturation_pa(middle) < wanted else (low, middle)
    return (low + high) / 2


def check_air(celsius: float, humidity_percent: float) -> None:
    """Raise BadInput for air that no enclosure has."""
    if not COLDEST_C <= celsius <= HOTTEST_C:
        hint = "; is it Fahrenheit? then write it with F" if celsius > HOTTEST_C else ""
        raise BadInput(
            f"air at {celsius:g} °C: give between {COLDEST_C:g} and {HOTTEST_C:g} °C{hint}"
        )
    if not 0 <= humidity_percent <= 100:
        raise BadInput(f"relative humidity is between 0 and 100 %, not {humidity_percent:g}")
