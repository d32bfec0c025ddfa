"""Quantities as a keeper types them and as they are shown; stored values are plain numbers.

Text is parsed in exact decimal arithmetic and becomes a float once, at the end.
"""

from __future__ import annotations

import re
import unicodedata
from decimal import Decimal
from itertools import pairwise

from warmside.core.values.errors import BadInput
from warmside.core.values.hints import closest, quoted
from warmside.core.values.quantity_text import Display, convert_for_display, format_quantity
from warmside.core.values.scales import BY_NAME, SCALES, Scale
from warmside.core.values.units import Unit

__all__ = [
    "Display",
    "convert_for_display",
    "format_quantity",
    "parse_quantity",
    "typing_help",
]

_BARE = {Unit.PERCENT, Unit.DAYS, Unit.COUNT, Unit.RATIO, Unit.PROBABILITY, Unit.MONEY}
_SIGNED = {Unit.TEMPERATURE, Unit.GROWTH_RATE, Unit.PERCENT, Unit.RATIO, Unit.MONEY}
_LONGEST_TEXT = 60
_LARGEST = Decimal(10) ** 12
_LARGEST_DAYS = Decimal(100_000)  # 274 years; far less than what overflows a calendar
_ABSOLUTE_ZERO = Decimal("-273.15")

_NUMBER = re.compile(r"[+-]?(?:[0-9]+(?:[.,][0-9]+)?|[.,][0-9]+)(?:[eE][+-]?[0-9]{1,2})?")
_GROUPED = re.compile(r"[+-]?[1-9][0-9]{0,2},[0-9]{3}")
_INEXACT = re.compile(r"mo|mos|months?|m|years?|yrs?|y")
_LOOKALIKES = str.maketrans(
    {
        "º": "°",
        "⁄": "/",
        "˚": "°",
        "−": "-",
        "–": "-",
        "′": "'",
        "’": "'",
        "‘": "'",
        "“": '"',
        "”": '"',
    }
)

_WORDS = {
    Unit.ENERGY_RATE: "energy a day",
    Unit.GROWTH_RATE: "growth",
    Unit.COUNT: "a count",
    Unit.RATIO: "a ratio",
    Unit.PROBABILITY: "a probability",
}

_EXAMPLES: dict[Unit, tuple[str, ...]] = {
    Unit.MASS: ("412g", "1.24kg", "14.5oz", "1lb 3oz"),
    Unit.LENGTH: ("85mm", "120cm", "1.2m", "48in", "4ft 2in"),
    Unit.AREA: ("7200cm2", "0.72m2", "8ft2"),
    Unit.TEMPERATURE: ("31C", "88F"),
    Unit.VOLUME: ("250ml", "1.5l", "8floz", "40gal"),
    Unit.ENERGY: ("120kJ", "30kcal"),
    Unit.ENERGY_RATE: ("8.1kJ/day", "2kcal/day"),
    Unit.GROWTH_RATE: ("1.2g/day", "8g/week", "0.3oz/week"),
    Unit.HOURS: ("12h", "90min", "13h 20min"),
    Unit.DAYS: ("12", "12d", "2w"),
    Unit.PERCENT: ("60", "60%"),
    Unit.COUNT: ("3",),
    Unit.RATIO: ("0.12", "12%"),
    Unit.PROBABILITY: ("0.05", "5%"),
    Unit.MONEY: ("12.50",),
}
_NOTES = {
    Unit.VOLUME: "fluid ounces and gallons are US",
    Unit.DAYS: "days or weeks",
    Unit.COUNT: "a whole number",
    Unit.MONEY: "a plain number, no currency sign",
}


def typing_help(unit: Unit) -> str:
    """How a value of the unit may be typed: examples, then a note where one is needed."""
    *first, last = _EXAMPLES[unit]
    examples = f"{', '.join(first)} or {last}" if first else last
    return f"{examples} ({_NOTES[unit]})" if unit in _NOTES else examples


def parse_quantity(text: str, unit: Unit, *, bare: bool = False, what: str = "value") -> float:
    """The stored value of what was typed; `what` names it in the error line.

    A number without a unit is in the stored unit, if `bare` or if no other unit is usual (days,
    percent, plain numbers), and is refused otherwise. A decimal comma is read where it cannot be a
    thousands separator. Raises BadInput for everything that is not surely understood.
    """
    try:
        parts = _parts(_tidied(text), unit, bare)
        total = _total(parts)
        _check_limits(total, unit)
    except _Doubt as doubt:
        raise BadInput(f"{what} {quoted(text)} {doubt.wrong}; {doubt.remedy}") from None
    return float(total)


class _Doubt(Exception):
    """What is wrong with the text and what to do; the entry point adds the text itself."""

    def __init__(self, wrong: str, remedy: str) -> None:
        super().__init__(wrong)
        self.wrong = wrong
        self.remedy = remedy


def _tidied(text: str) -> str:
    """One spelling for signs that look alike, for width and for spaces."""
    text = unicodedata.normalize("NFKC", text.translate(_LOOKALIKES)).translate(_LOOKALIKES)
    text = "".join(c if c.isprintable() else " " for c in text)
    text = " ".join(text.replace("''", '"').replace("^2", "2").split())
    return text.replace("° ", "°")


def _parts(typed: str, unit: Unit, bare: bool) -> list[tuple[Decimal, Scale]]:
    """The numbers of the text, each with its scale."""
    pairs = _pairs(typed, unit)
    if len(pairs) == 1 and not pairs[0][1] and (bare or unit in _BARE):
        return [(_decimal(pairs[0][0]), SCALES[unit][0])]
    if len(pairs) > 1 and not pairs[-1][1]:
        raise _Doubt(f"has no unit after {pairs[-1][0]}", f"write {typing_help(unit)}")
    return [(_decimal(number), _named(name, number, unit)) for number, name in pairs]


def _pairs(typed: str, unit: Unit) -> list[tuple[str, str]]:
    """The text cut into numbers and what stands behind each."""
    write = f"write {typing_help(unit)}"
    if len(typed) > _LONGEST_TEXT:
        raise _Doubt("is too long for a quantity", write)
    first = _NUMBER.match(typed)
    if first is None:
        raise _Doubt("is no number" if typed else "was typed", write)
    if not any(scale.chain for scale in SCALES[unit]):
        pairs = [(first[0], typed[first.end() :].strip())]
    else:
        _, *cut = re.split(f"({_NUMBER.pattern})", typed)
        pairs = [(n, name.strip()) for n, name in zip(cut[::2], cut[1::2], strict=True)]
    _check_cut(pairs, write)
    return pairs


def _check_cut(pairs: list[tuple[str, str]], write: str) -> None:
    """Refuse numbers that were cut where no unit stands between: `1/2`, `1,234.5`, `3-4`."""
    if any(re.match(r"/$|/ ?[0-9]", name) for _, name in pairs):
        raise _Doubt("holds a fraction", "write it as a decimal number, 0.5 for 1/2")
    glued = any(not name and after[0] in ".," for (_, name), (after, _) in pairwise(pairs))
    if glued or any(re.match("[.,] ?[0-9]", name) for _, name in pairs):
        raise _Doubt("cannot be read as one number", "write it without thousands separators")
    if any(not name for _, name in pairs[:-1]) or any(n[0] in "+-" for n, _ in pairs[1:]):
        raise _Doubt("cannot be read as one quantity", write)


def _decimal(number: str) -> Decimal:
    """The number; a comma that might group thousands is refused."""
    if _GROUPED.fullmatch(number):
        whole, fraction = number.replace(",", ""), number.replace(",", ".")
        raise _Doubt(
            f"could mean {whole} or {fraction}", "write it with a decimal point or without comma"
        )
    return Decimal(number.replace(",", "."))


def _named(name: str, number: str, unit: Unit) -> Scale:
    """The scale of a typed unit name."""
    if not name:
        raise _Doubt("has no unit", f"write {_with_units(number, unit)}")
    key = name.replace(" per ", "/").replace(" / ", "/").replace(". ", " ").rstrip(". ").casefold()
    scale = BY_NAME[unit].get(key)
    if scale is not None:
        return scale
    if unit is Unit.DAYS and _INEXACT.fullmatch(key):
        raise _Doubt("has no fixed number of days", "write days or weeks, such as 30d or 4w")
    near = closest(key, [n for n in BY_NAME[unit] if n])
    meant = f" (did you mean {BY_NAME[unit][near].names[0]!r}?)" if near else ""
    word = _WORDS.get(unit, unit.name.lower())
    raise _Doubt(
        f"has {quoted(name)!r}, which is no unit for {word}{meant}", f"write {typing_help(unit)}"
    )


def _with_units(number: str, unit: Unit) -> str:
    """The number as it might have been meant: `86C or 86F`."""
    _decimal(number)  # refuse what has two meanings first
    ours, other = _OFFERED[unit]
    return f"{number}{ours.names[0]} or {number}{other.names[0]}"


_OFFERED = {
    unit: (BY_NAME[unit][ours], BY_NAME[unit][other])
    for unit, ours, other in (
        (Unit.MASS, "g", "oz"),
        (Unit.LENGTH, "cm", "in"),
        (Unit.AREA, "cm2", "in2"),
        (Unit.TEMPERATURE, "c", "f"),
        (Unit.VOLUME, "ml", "floz"),
        (Unit.ENERGY, "kj", "kcal"),
        (Unit.ENERGY_RATE, "kj/day", "kcal/day"),
        (Unit.GROWTH_RATE, "g/day", "g/week"),
        (Unit.HOURS, "h", "min"),
        (Unit.DAYS, "d", "w"),
    )
}


def _total(parts: list[tuple[Decimal, Scale]]) -> Decimal:
    """The stored value of all parts; only the first may carry a sign."""
    for (number, above), (smaller, below) in pairwise(parts):
        ratio = above.times * below.over / (above.over * below.times)
        if not above.chain or above.chain != below.chain or ratio <= 1:
            raise _Doubt("cannot be read as one quantity", "write one unit, or the larger first")
        if number != int(number):
            raise _Doubt("has a fraction before its last part", "write it in one unit")
        if smaller >= ratio:
            raise _Doubt(
                f"has {smaller} {below.symbol}, which is 1 {above.symbol} or more",
                "check the numbers",
            )
    sign = -1 if parts[0][0].is_signed() and len(parts) > 1 else 1
    first = parts[0][1].to_stored(parts[0][0])
    return first + sign * sum((s.to_stored(n) for n, s in parts[1:]), Decimal(0))


def _check_limits(total: Decimal, unit: Unit) -> None:
    """Refuse what no quantity of that unit can be; narrower limits belong to the field."""
    if total < 0 and unit not in _SIGNED:
        raise _Doubt("is below zero", "write it without minus")
    if unit is Unit.TEMPERATURE and total < _ABSOLUTE_ZERO:
        raise _Doubt("is below absolute zero", "check the number and its unit")
    if unit is Unit.PROBABILITY and total > 1:
        raise _Doubt("is above 1", f"write {typing_help(unit)}")
    if unit is Unit.COUNT and total != int(total):
        raise _Doubt("is no whole number", f"write {typing_help(unit)}")
    if abs(total) > (_LARGEST_DAYS if unit is Unit.DAYS else _LARGEST):
        raise _Doubt("is too large", "check the number and its unit")
