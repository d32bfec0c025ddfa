"""Energy of food and of electricity, power, and the heat that walls let through.

Sources: the thermochemical calorie of 4.184 J, and 1 kWh = 3.6 MJ (NIST Special Publication 811,
2008, appendix B.8); the coefficient of heat transfer in W/(m² K) by ISO 7345:2018 (from memory).
"""

from __future__ import annotations

from warmside.core.values.measures.measure import Measure, rung, style
from warmside.core.values.scales import scale

KJ = scale("kJ", "kJ, kilojoule, kilojoules")
KCAL = scale("kcal", "kcal, kilocalorie, kilocalories", "4.184")
J = scale("J", "J, joule, joules", "0.001")

ENERGY = Measure((KJ, KCAL, J), style(KJ), ("120kJ", "30kcal"), "energy")

KJ_PER_DAY = scale("kJ/day", "kJ/day, kJ/d")
KCAL_PER_DAY = scale("kcal/day", "kcal/day, kcal/d", "4.184")

ENERGY_RATE = Measure(
    (KJ_PER_DAY, KCAL_PER_DAY), style(KJ_PER_DAY), ("8.1kJ/day", "2kcal/day"), "energy a day"
)

W = scale("W", "W, watt, watts")
KW = scale("kW", "kW, kilowatt, kilowatts", "1000")

POWER = Measure((W, KW), style(W, rung(W, 1000, 1), rung(KW, None, 3)), ("75W", "1.2kW"), "power")

KWH = scale("kWh", "kWh, kilowatt-hour, kilowatt-hours")
WH = scale("Wh", "Wh, watt-hour, watt-hours", "0.001")

ELECTRICITY = Measure((KWH, WH), style(KWH), ("1.8kWh", "600Wh"), "electricity")

W_PER_M2K = scale("W/m²K", "W/m2K, W/(m2K), W/m2 K, W/(m2 K)")

HEAT_TRANSFER = Measure((W_PER_M2K,), style(W_PER_M2K), ("2.8W/m2K",), "heat transfer")
