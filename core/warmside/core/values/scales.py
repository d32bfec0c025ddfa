"""The scales in which a keeper may type or read a value, with exact factors to the stored unit.

Sources: pound, inch, foot and yard by the international agreement of 1959 (Federal Register 24 FR
5348); US fluid ounce 1/128 of the gallon of 231 cubic inches (NIST Handbook 44, appendix C); degree
Fahrenheit, kelvin and the thermochemical calorie of 4.184 J (NIST Special Publication 811,
appendix B). Nothing here is rounded: a month, which has no fixed length, is no scale.
"""

from __future__ import annotations

from dataclasses import dataclass
from decimal import Decimal

from warmside.core.values.units import Unit


@dataclass(frozen=True, slots=True)
class Scale:
    """One way to state a value: stored = (number - zero) * times / over.

    `names` are what may be typed, the plainest first; `symbol` is what is shown. Scales of one
    `chain` may follow each other in one quantity, as in `1 lb 3 oz`.
    """

    symbol: str
    names: tuple[str, ...]
    times: Decimal
    over: Decimal = Decimal(1)
    zero: Decimal = Decimal(0)
    chain: str = ""

    def to_stored(self, number: Decimal) -> Decimal:
        """The stored value of a number on this scale."""
        return (number - self.zero) * self.times / self.over

    def from_stored(self, value: Decimal) -> Decimal:
        """The number on this scale of a stored value."""
        return value * self.over / self.times + self.zero


def _scale(symbol: str, names: str, times: str, over: str = "1", chain: str = "") -> Scale:
    return Scale(symbol, tuple(names.split(", ")), Decimal(times), over=Decimal(over), chain=chain)


MG = _scale("mg", "mg, milligram, milligrams", "0.001", chain="gram")
G = _scale("g", "g, gram, grams, gramme, grammes", "1", chain="gram")
KG = _scale("kg", "kg, kgs, kilo, kilos, kilogram, kilograms", "1000", chain="gram")
OZ = _scale("oz", "oz, ounce, ounces", "453.59237", over="16", chain="pound")
LB = _scale("lb", "lb, lbs, pound, pounds", "453.59237", chain="pound")

MM = _scale("mm", "mm, millimetre, millimetres, millimeter, millimeters", "1", chain="metre")
CM = _scale("cm", "cm, centimetre, centimetres, centimeter, centimeters", "10", chain="metre")
M = _scale("m", "m, metre, metres, meter, meters", "1000", chain="metre")
IN = _scale("in", 'in, inch, inches, "', "25.4", chain="yard")
FT = _scale("ft", "ft, foot, feet, '", "304.8", chain="yard")
YD = _scale("yd", "yd, yard, yards", "914.4", chain="yard")

MM2 = _scale("mm²", "mm2, sq mm", "1")
CM2 = _scale("cm²", "cm2, sq cm", "100")
M2 = _scale("m²", "m2, sq m", "1000000")
IN2 = _scale("in²", "in2, sq in, square inches", "645.16")
FT2 = _scale("ft²", "ft2, sq ft, square feet", "92903.04")

CELSIUS = _scale("°C", "C, °C, deg C, celsius", "1")
FAHRENHEIT = Scale(
    "°F", ("F", "°F", "deg F", "fahrenheit"), Decimal(5), over=Decimal(9), zero=Decimal(32)
)
KELVIN = Scale("K", ("K", "kelvin"), Decimal(1), zero=Decimal("273.15"))

ML = _scale("ml", "ml, cc, millilitre, millilitres, milliliter, milliliters", "1", chain="litre")
LITRE = _scale("l", "l, litre, litres, liter, liters", "1000", chain="litre")
FL_OZ = _scale(
    "fl oz", "fl oz, floz, us fl oz, fluid ounce, fluid ounces", "3785.411784", over="128"
)
GALLON = _scale("gal", "gal, us gal, gallon, gallons", "3785.411784")

KJ = _scale("kJ", "kJ, kilojoule, kilojoules", "1")
J = _scale("J", "J, joule, joules", "0.001")
KCAL = _scale("kcal", "kcal, kilocalorie, kilocalories", "4.184")
KJ_PER_DAY = _scale("kJ/day", "kJ/day, kJ/d", "1")
KCAL_PER_DAY = _scale("kcal/day", "kcal/day, kcal/d", "4.184")
G_PER_DAY = _scale("g/day", "g/day, g/d", "1")
G_PER_WEEK = _scale("g/week", "g/week, g/w", "1", over="7")
OZ_PER_DAY = _scale("oz/day", "oz/day, oz/d", "453.59237", over="16")
OZ_PER_WEEK = _scale("oz/week", "oz/week, oz/w", "453.59237", over="112")

HOURS = _scale("h", "h, hr, hrs, hour, hours", "1", chain="hour")
MINUTES = _scale("min", "min, m, mins, minute, minutes", "1", over="60", chain="hour")
DAYS = _scale("days", "d, day, days", "1", chain="day")
WEEKS = _scale("weeks", "w, wk, wks, week, weeks", "7", chain="day")

PERCENT = _scale("%", "%, percent, per cent", "1")
PLAIN = Scale("", ("",), Decimal(1))
HUNDREDTHS = _scale("%", "%, percent, per cent", "1", over="100")

SCALES: dict[Unit, tuple[Scale, ...]] = {
    Unit.MASS: (G, KG, MG, OZ, LB),
    Unit.LENGTH: (MM, CM, M, IN, FT, YD),
    Unit.AREA: (MM2, CM2, M2, IN2, FT2),
    Unit.TEMPERATURE: (CELSIUS, FAHRENHEIT, KELVIN),
    Unit.VOLUME: (ML, LITRE, FL_OZ, GALLON),
    Unit.ENERGY: (KJ, J, KCAL),
    Unit.ENERGY_RATE: (KJ_PER_DAY, KCAL_PER_DAY),
    Unit.GROWTH_RATE: (G_PER_DAY, G_PER_WEEK, OZ_PER_DAY, OZ_PER_WEEK),
    Unit.HOURS: (HOURS, MINUTES),
    Unit.DAYS: (DAYS, WEEKS),
    Unit.PERCENT: (PERCENT,),
    Unit.COUNT: (PLAIN,),
    Unit.RATIO: (PLAIN, HUNDREDTHS),
    Unit.PROBABILITY: (PLAIN, HUNDREDTHS),
    Unit.MONEY: (PLAIN,),
}
"""The scales of each unit, the stored one first."""


def _by_name(scales: tuple[Scale, ...]) -> dict[str, Scale]:
    return {name.casefold(): scale for scale in scales for name in scale.names}


BY_NAME: dict[Unit, dict[str, Scale]] = {unit: _by_name(s) for unit, s in SCALES.items()}
"""For each unit, the scale of every name that may be typed, in folded case."""
