"""Temperature and its differences, the water in the air, pressure and light.

Sources: degree Fahrenheit, kelvin and foot-candle by NIST Special Publication 811 (2008), appendix
B.8, where a difference of 1 °F is 5/9 K and has no zero to shift; millibar by the same appendix,
1 hPa. The UV index is a plain number (WHO 2002, Global Solar UV Index: 40 m²/W of the erythemally
weighted irradiance; from memory).
"""

from __future__ import annotations

from decimal import Decimal

from warmside.core.values.measures.measure import Bare, Limit, Measure, rung, style
from warmside.core.values.scales import scale
from warmside.core.values.units import Unit

CELSIUS = scale("°C", "C, °C, deg C, celsius")
FAHRENHEIT = scale("°F", "F, °F, deg F, fahrenheit", "5", over="9", zero="32")
KELVIN = scale("K", "K, kelvin", zero="273.15")
_ABSOLUTE_ZERO = Limit(
    Decimal("-273.15"), "is below absolute zero", "check the number and its unit"
)

TEMPERATURE = Measure(
    (CELSIUS, FAHRENHEIT, KELVIN),
    style(CELSIUS, rung(CELSIUS, None, 1)),
    ("31C", "88F"),
    "temperature",
    style(FAHRENHEIT, rung(FAHRENHEIT, None, 1)),
    least=_ABSOLUTE_ZERO,
)

CELSIUS_STEPS = scale("°C", "C, °C, deg C, celsius, K, kelvin")
FAHRENHEIT_STEPS = scale("°F", "F, °F, deg F, fahrenheit", "5", over="9")

TEMPERATURE_DIFFERENCE = Measure(
    (CELSIUS_STEPS, FAHRENHEIT_STEPS),
    style(CELSIUS_STEPS, rung(CELSIUS_STEPS, None, 1)),
    ("8C", "14.4F"),
    "a difference of temperature",
    style(FAHRENHEIT_STEPS, rung(FAHRENHEIT_STEPS, None, 1)),
    follows=Unit.TEMPERATURE,
    least=None,
)

CELSIUS_HOURS = scale("°C·h", "C h, °C·h, C·h, °C h, K h, K·h")
FAHRENHEIT_HOURS = scale("°F·h", "F h, °F·h, F·h, °F h", "5", over="9")

DEGREE_HOURS = Measure(
    (CELSIUS_HOURS, FAHRENHEIT_HOURS),
    style(CELSIUS_HOURS),
    ("24C h", "43F h"),
    "degree-hours",
    style(FAHRENHEIT_HOURS),
    follows=Unit.TEMPERATURE,
    least=None,
)

G_PER_M3 = scale("g/m³", "g/m3")

VAPOUR = Measure((G_PER_M3,), style(G_PER_M3), ("12g/m3",), "water in the air")

PA = scale("Pa", "Pa, pascal, pascals")
HPA = scale("hPa", "hPa, mbar, millibar", "100")
KPA = scale("kPa", "kPa", "1000")

PRESSURE = Measure(
    (PA, HPA, KPA),
    style(HPA, rung(PA, 100, 1), rung(KPA, 10, 3), rung(HPA, None, 1)),
    ("1013hPa", "1.2kPa"),
    "pressure",
)

LUX = scale("lx", "lx, lux")
KILOLUX = scale("klx", "klx, kilolux", "1000")
FOOT_CANDLE = scale("fc", "fc, foot-candle, foot-candles, footcandles", over="0.09290304")

ILLUMINANCE = Measure(
    (LUX, KILOLUX, FOOT_CANDLE),
    style(LUX, rung(LUX, 10_000), rung(KILOLUX)),
    ("800lx", "12klx", "75fc"),
    "light",
)

UVI = scale("UVI", "UVI, UV index")

UV_INDEX = Measure((UVI,), style(UVI, rung(UVI, None, 1)), ("3.5",), "a UV index", bare=Bare.ALWAYS)
