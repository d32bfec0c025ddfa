"""Quantities as a keeper types them and as they are shown; stored values are plain numbers.

Text is parsed in exact decimal arithmetic and becomes a float once, at the end.
"""

from __future__ import annotations

from warmside.core.values.display import Display, parse_display
from warmside.core.values.errors import BadInput
from warmside.core.values.hints import quoted
from warmside.core.values.measures.measure import Bare, Measure, measure_of
from warmside.core.values.quantity_reading import Doubt, Reading, check_limits, tidied, total_of
from warmside.core.values.quantity_text import convert_for_display, format_quantity
from warmside.core.values.scales import Scale
from warmside.core.values.units import Unit

__all__ = [
    "Display",
    "convert_for_display",
    "format_quantity",
    "parse_display",
    "parse_quantity",
    "typing_help",
]


def typing_help(unit: Unit) -> str:
    """How a value of the unit may be typed: examples, then a note where one is needed."""
    measure = measure_of(unit)
    *first, last = measure.examples
    examples = f"{', '.join(first)} or {last}" if first else last
    return f"{examples} ({measure.note})" if measure.note else examples


def parse_quantity(
    text: str,
    unit: Unit,
    *,
    bare: bool = False,
    display: Display | None = None,
    what: str = "value",
) -> float:
    """The stored value of what was typed; `what` names it in the error line.

    A number without a unit is in the stored unit with `bare` (a column that says its unit), else in
    the scale of `display`, the collection's. With neither it is refused, unless no other unit is
    usual (days, percent, plain numbers). A decimal comma is read where it cannot be a thousands
    separator. Raises BadInput for everything that is not surely understood.
    """
    measure = measure_of(unit)
    try:
        reading = Reading(measure, typing_help(unit), _bare_scale(measure, unit, bare, display))
        total = total_of(reading.of(tidied(text)))
        check_limits(total, measure, typing_help(unit))
    except Doubt as doubt:
        raise BadInput(f"{what} {quoted(text)} {doubt.wrong}; {doubt.remedy}") from None
    return float(total)


def _bare_scale(measure: Measure, unit: Unit, bare: bool, display: Display | None) -> Scale | None:
    """The scale of a number that has no unit; None where it is refused."""
    if bare:
        return measure.scales[0]
    if display is not None and measure.bare is not Bare.NEVER:
        return display.style(unit).table
    return measure.scales[0] if measure.bare is Bare.ALWAYS else None
