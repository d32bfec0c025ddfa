"""How stored values are shown: the unit that reads best, and no more digits than help.

Which unit from which size, and how many decimals, is common practice, no source: fine enough that
what a household scale, a tape or a thermometer shows comes back as it was typed.
"""

from __future__ import annotations

from dataclasses import dataclass
from decimal import ROUND_HALF_UP, Context, Decimal
from enum import StrEnum

from warmside.core.values import scales
from warmside.core.values.scales import Scale
from warmside.core.values.units import Unit


class Display(StrEnum):
    """The units in which a collection shows its values."""

    METRIC = "metric"
    IMPERIAL = "imperial"


@dataclass(frozen=True, slots=True)
class _Rung:
    """A scale that is used for numbers below a limit, with its decimals.

    `decimals` None means three significant digits, never fewer than the whole number has. With
    `above`, whole numbers of that larger scale stand in front, as in `2 lb 3.5 oz`.
    """

    scale: Scale
    below: Decimal | None = None
    decimals: int | None = None
    above: Scale | None = None


def _rung(
    scale: Scale, below: int | None, decimals: int | None, above: Scale | None = None
) -> _Rung:
    return _Rung(scale, None if below is None else Decimal(below), decimals, above)


_METRIC: dict[Unit, tuple[_Rung, ...]] = {
    Unit.MASS: (
        _rung(scales.MG, 100, 1),
        _rung(scales.G, 10, 2),
        _rung(scales.G, 1000, 1),
        _rung(scales.KG, None, 3),
    ),
    Unit.LENGTH: (
        _rung(scales.MM, 100, 1),
        _rung(scales.CM, 1000, 2),
        _rung(scales.M, None, 3),
    ),
    Unit.AREA: (
        _rung(scales.MM2, 100, 1),
        _rung(scales.CM2, 10_000, None),
        _rung(scales.M2, None, 3),
    ),
    Unit.TEMPERATURE: (_rung(scales.CELSIUS, None, 1),),
    Unit.VOLUME: (
        _rung(scales.ML, 10, 3),
        _rung(scales.ML, 1000, 1),
        _rung(scales.LITRE, None, 3),
    ),
    Unit.ENERGY: (_rung(scales.KJ, None, None),),
    Unit.ENERGY_RATE: (_rung(scales.KJ_PER_DAY, None, None),),
    Unit.GROWTH_RATE: (_rung(scales.G_PER_DAY, None, None),),
    Unit.HOURS: (
        _rung(scales.MINUTES, 60, 1),
        _rung(scales.MINUTES, None, 0, above=scales.HOURS),
    ),
    Unit.DAYS: (_rung(scales.DAYS, None, None),),
    Unit.PERCENT: (_rung(scales.PERCENT, None, None),),
    Unit.COUNT: (_rung(scales.PLAIN, None, None),),
    Unit.RATIO: (_rung(scales.PLAIN, None, None),),
    Unit.PROBABILITY: (_rung(scales.PLAIN, None, None),),
    Unit.MONEY: (_rung(scales.PLAIN, None, 2),),
}

_IMPERIAL: dict[Unit, tuple[_Rung, ...]] = _METRIC | {
    Unit.MASS: (
        _rung(scales.OZ, 1, None),
        _rung(scales.OZ, 16, 2),
        _rung(scales.OZ, None, 1, above=scales.LB),
    ),
    Unit.LENGTH: (
        _rung(scales.IN, 1, None),
        _rung(scales.IN, 120, 2),
        _rung(scales.IN, None, 1, above=scales.FT),
    ),
    Unit.AREA: (_rung(scales.IN2, 144, None), _rung(scales.FT2, None, 2)),
    Unit.TEMPERATURE: (_rung(scales.FAHRENHEIT, None, 1),),
    Unit.VOLUME: (
        _rung(scales.FL_OZ, 1, None),
        _rung(scales.FL_OZ, 128, 2),
        _rung(scales.GALLON, None, 2),
    ),
    Unit.GROWTH_RATE: (_rung(scales.OZ_PER_WEEK, None, None),),
}

_TABLE: dict[Display, dict[Unit, Scale]] = {
    Display.METRIC: {unit: s[0] for unit, s in scales.SCALES.items()}
    | {Unit.LENGTH: scales.CM, Unit.AREA: scales.CM2},
    Display.IMPERIAL: {unit: s[0] for unit, s in scales.SCALES.items()}
    | {
        Unit.MASS: scales.OZ,
        Unit.LENGTH: scales.IN,
        Unit.AREA: scales.IN2,
        Unit.TEMPERATURE: scales.FAHRENHEIT,
        Unit.VOLUME: scales.FL_OZ,
        Unit.GROWTH_RATE: scales.OZ_PER_WEEK,
    },
}

_MOST_DECIMALS = 12
_WIDE = Context(prec=700, rounding=ROUND_HALF_UP)  # every finite float fits


def convert_for_display(value: float, unit: Unit, display: Display) -> tuple[float, str]:
    """The plain number and unit symbol for table columns and chart axes, not rounded.

    The unit depends on `unit` and `display` only, so that a whole column shares it.
    """
    scale = _TABLE[display][unit]
    return float(scale.from_stored(Decimal(repr(float(value))))), scale.symbol


def format_quantity(
    value: float, unit: Unit, display: Display, *, digits: int | None = None
) -> str:
    """The value with its unit, readable; what is not finite is `not known`.

    `digits` rounds to that many significant digits, for numbers that are less sure.
    """
    stored = Decimal(repr(float(value)))
    if not stored.is_finite():
        return "not known"
    rung, number = _choose(stored, unit, display, digits)
    if number == 0:
        zero = "0.00" if unit is Unit.MONEY else "0"
        return _with_symbol(zero, _TABLE[display][unit].symbol)
    sign = "-" if number < 0 else ""
    return sign + _said(abs(number), rung, unit)


def plain_number(number: Decimal) -> str:
    """The number to three significant digits, whole digits kept, without trailing zeros."""
    return _trimmed(_rounded(number, _significant(number)))


def _choose(
    stored: Decimal, unit: Unit, display: Display, digits: int | None
) -> tuple[_Rung, Decimal]:
    """The first rung that is wide enough for the rounded number, and that number."""
    ladder = (_METRIC if display is Display.METRIC else _IMPERIAL)[unit]
    for rung in ladder:
        number = rung.scale.from_stored(stored)
        rounded = _rounded(number, _decimals(number, rung, unit, digits))
        if rung.below is None or abs(rounded) < rung.below:
            break
    return rung, rounded


def _decimals(number: Decimal, rung: _Rung, unit: Unit, digits: int | None) -> int:
    """How many decimals to show; negative to round whole digits."""
    if digits is not None:
        return digits - 1 - number.adjusted() if number else 0
    if rung.decimals is not None:
        return rung.decimals
    decimals = _significant(number)
    if unit is Unit.PROBABILITY and number != 1 and _rounded(number, decimals) == 1:
        return _significant(1 - number)  # nearly certain must not read as certain
    return decimals


def _significant(number: Decimal) -> int:
    return min(max(0, 2 - number.adjusted()), _MOST_DECIMALS) if number else 0


def _rounded(number: Decimal, decimals: int) -> Decimal:
    return number.quantize(Decimal(1).scaleb(-decimals), context=_WIDE)


def _said(number: Decimal, rung: _Rung, unit: Unit) -> str:
    if unit is Unit.MONEY:
        return f"{number:.2f}"
    if unit is Unit.DAYS:
        return f"{_trimmed(number)} {'day' if number == 1 else 'days'}"
    if rung.above is None:
        return _with_symbol(_trimmed(number), rung.scale.symbol)
    whole, rest = _WIDE.divmod(number, rung.above.times / rung.scale.times * rung.scale.over)
    parts = ((whole, rung.above.symbol), (rest, rung.scale.symbol))
    return " ".join(_with_symbol(_trimmed(n), symbol) for n, symbol in parts if n)


def _with_symbol(number: str, symbol: str) -> str:
    return f"{number} {symbol}" if symbol else number


def _trimmed(number: Decimal) -> str:
    text = f"{number:f}"
    return text.rstrip("0").rstrip(".") if "." in text else text
