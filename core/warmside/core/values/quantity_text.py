"""How stored values are shown: the scale that reads best, and no more digits than help."""

from __future__ import annotations

from decimal import ROUND_HALF_UP, Context, Decimal

from warmside.core.values.display import Display
from warmside.core.values.measures.measure import Rung, Style
from warmside.core.values.units import Unit

_MOST_DECIMALS = 12
_WIDE = Context(prec=700, rounding=ROUND_HALF_UP)  # every finite float fits


def convert_for_display(value: float, unit: Unit, display: Display) -> tuple[float, str]:
    """The plain number and unit symbol for table columns and chart axes, not rounded.

    The unit depends on `unit` and `display` only, so that a whole column shares it.
    """
    scale = display.style(unit).table
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
    style = display.style(unit)
    rung, number = _choose(stored, style, digits)
    if number == 0:
        return _with_symbol(_digits(abs(number), rung), style.table.symbol)
    sign = "-" if number < 0 else ""
    return sign + _said(abs(number), rung)


def _choose(stored: Decimal, style: Style, digits: int | None) -> tuple[Rung, Decimal]:
    """The first rung that is wide enough for the rounded number, and that number."""
    for rung in style.rungs:
        number = rung.scale.from_stored(stored)
        rounded = _rounded(number, _decimals(number, rung, digits))
        if rung.below is None or abs(rounded) < rung.below:
            break
    return rung, rounded


def _decimals(number: Decimal, rung: Rung, digits: int | None) -> int:
    """How many decimals to show; negative to round whole digits."""
    if digits is not None:
        return digits - 1 - number.adjusted() if number else 0
    if rung.decimals is not None:
        return rung.decimals
    decimals = _significant(number)
    if rung.short_of not in (None, number) and _rounded(number, decimals) == rung.short_of:
        return _significant(rung.short_of - number)  # nearly certain must not read as certain
    return decimals


def _significant(number: Decimal) -> int:
    return min(max(0, 2 - number.adjusted()), _MOST_DECIMALS) if number else 0


def _rounded(number: Decimal, decimals: int) -> Decimal:
    return number.quantize(Decimal(1).scaleb(-decimals), context=_WIDE)


def _said(number: Decimal, rung: Rung) -> str:
    if rung.above is None:
        return _with_symbol(_digits(number, rung), rung.scale.unit_of(number))
    whole, rest = _WIDE.divmod(number, rung.above.holds(rung.scale))
    parts = ((whole, rung.above), (rest, rung.scale))
    return " ".join(_with_symbol(_trimmed(n), scale.unit_of(n)) for n, scale in parts if n)


def _digits(number: Decimal, rung: Rung) -> str:
    return f"{number:.{rung.decimals}f}" if rung.zeros else _trimmed(number)


def _with_symbol(number: str, symbol: str) -> str:
    return f"{number} {symbol}" if symbol else number


def _trimmed(number: Decimal) -> str:
    text = f"{number:f}"
    return text.rstrip("0").rstrip(".") if "." in text else text
