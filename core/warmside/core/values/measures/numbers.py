"""Plain numbers: percent, counts, ratios, probabilities and money."""

from __future__ import annotations

from decimal import Decimal

from warmside.core.values.measures.measure import Bare, Limit, Measure, Rung, Style, style
from warmside.core.values.scales import Scale, scale

PERCENT_SIGN = scale("%", "%, percent, per cent")
PLAIN = Scale("", ("",), Decimal(1))
HUNDREDTHS = scale("%", "%, percent, per cent", over="100")

PERCENT = Measure(
    (PERCENT_SIGN,), style(PERCENT_SIGN), ("60", "60%"), "percent", bare=Bare.ALWAYS, least=None
)

COUNT = Measure(
    (PLAIN,),
    style(PLAIN),
    ("3",),
    "a count",
    note="a whole number",
    bare=Bare.ALWAYS,
    whole=True,
)

RATIO = Measure(
    (PLAIN, HUNDREDTHS), style(PLAIN), ("0.12", "12%"), "a ratio", bare=Bare.ALWAYS, least=None
)

_AT_MOST_ONE = Limit(Decimal(1), "is above 1", "write 0.05 or 5%")

PROBABILITY = Measure(
    (PLAIN, HUNDREDTHS),
    Style(PLAIN, (Rung(PLAIN, short_of=Decimal(1)),)),
    ("0.05", "5%"),
    "a probability",
    bare=Bare.ALWAYS,
    most=_AT_MOST_ONE,
)

MONEY = Measure(
    (PLAIN,),
    Style(PLAIN, (Rung(PLAIN, decimals=2, zeros=True),)),
    ("12.50",),
    "money",
    note="a plain number, no currency sign",
    bare=Bare.ALWAYS,
    least=None,
)
