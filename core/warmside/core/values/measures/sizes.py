"""Mass, length, area, volume and growth.

Sources: pound, inch, foot and yard by the international agreement of 1959 (Federal Register 24 FR
5348); US fluid ounce 1/128 of the gallon of 231 cubic inches (NIST Handbook 44, appendix C).
"""

from __future__ import annotations

from warmside.core.values.measures.measure import Measure, rung, style
from warmside.core.values.scales import scale
from warmside.core.values.units import Unit

MG = scale("mg", "mg, milligram, milligrams", "0.001", chain="gram")
G = scale("g", "g, gram, grams, gramme, grammes", chain="gram")
KG = scale("kg", "kg, kgs, kilo, kilos, kilogram, kilograms", "1000", chain="gram")
OZ = scale("oz", "oz, ounce, ounces", "453.59237", over="16", chain="pound")
LB = scale("lb", "lb, lbs, pound, pounds", "453.59237", chain="pound")

MASS = Measure(
    (G, KG, MG, OZ, LB),
    style(G, rung(MG, 100, 1), rung(G, 10, 2), rung(G, 1000, 1), rung(KG, None, 3)),
    ("412g", "1.24kg", "14.5oz", "1lb 3oz"),
    "mass",
    style(OZ, rung(OZ, 1), rung(OZ, 16, 2), rung(OZ, None, 1, above=LB)),
)

MM = scale("mm", "mm, millimetre, millimetres, millimeter, millimeters", chain="metre")
CM = scale("cm", "cm, centimetre, centimetres, centimeter, centimeters", "10", chain="metre")
M = scale("m", "m, metre, metres, meter, meters", "1000", chain="metre")
IN = scale("in", 'in, inch, inches, "', "25.4", chain="yard")
FT = scale("ft", "ft, foot, feet, '", "304.8", chain="yard")
YD = scale("yd", "yd, yard, yards", "914.4", chain="yard")

LENGTH = Measure(
    (MM, CM, M, IN, FT, YD),
    style(CM, rung(MM, 100, 1), rung(CM, 1000, 2), rung(M, None, 3)),
    ("85mm", "120cm", "1.2m", "48in", "4ft 2in"),
    "length",
    style(IN, rung(IN, 1), rung(IN, 120, 2), rung(IN, None, 1, above=FT)),
)

MM2 = scale("mm²", "mm2, sq mm")
CM2 = scale("cm²", "cm2, sq cm", "100")
M2 = scale("m²", "m2, sq m", "1000000")
IN2 = scale("in²", "in2, sq in, square inches", "645.16")
FT2 = scale("ft²", "ft2, sq ft, square feet", "92903.04")

AREA = Measure(
    (MM2, CM2, M2, IN2, FT2),
    style(CM2, rung(MM2, 100, 1), rung(CM2, 10_000), rung(M2, None, 3)),
    ("7200cm2", "0.72m2", "8ft2"),
    "area",
    style(IN2, rung(IN2, 144), rung(FT2, None, 2)),
    follows=Unit.LENGTH,
)

ML = scale("ml", "ml, cc, millilitre, millilitres, milliliter, milliliters", chain="litre")
LITRE = scale("l", "l, litre, litres, liter, liters", "1000", chain="litre")
FL_OZ = scale(
    "fl oz", "fl oz, floz, us fl oz, fluid ounce, fluid ounces", "3785.411784", over="128"
)
GALLON = scale("gal", "gal, us gal, gallon, gallons", "3785.411784")

VOLUME = Measure(
    (ML, LITRE, FL_OZ, GALLON),
    style(ML, rung(ML, 10, 3), rung(ML, 1000, 1), rung(LITRE, None, 3)),
    ("250ml", "1.5l", "8floz", "40gal"),
    "volume",
    style(FL_OZ, rung(FL_OZ, 1), rung(FL_OZ, 128, 2), rung(GALLON, None, 2)),
    note="fluid ounces and gallons are US",
)

G_PER_DAY = scale("g/day", "g/day, g/d")
G_PER_WEEK = scale("g/week", "g/week, g/w", over="7")
OZ_PER_DAY = scale("oz/day", "oz/day, oz/d", "453.59237", over="16")
OZ_PER_WEEK = scale("oz/week", "oz/week, oz/w", "453.59237", over="112")

GROWTH_RATE = Measure(
    (G_PER_DAY, G_PER_WEEK, OZ_PER_DAY, OZ_PER_WEEK),
    style(G_PER_DAY),
    ("1.2g/day", "8g/week", "0.3oz/week"),
    "growth",
    style(OZ_PER_WEEK),
    follows=Unit.MASS,
    least=None,
)
