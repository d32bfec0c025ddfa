"""What a unit's measure says: its scales, how a value is shown in each system, what may be typed.

Which scale from which size, and how many decimals, is common practice, no source: fine enough that
what a household scale, a tape or a thermometer shows comes back as it was typed.
"""

from __future__ import annotations

from collections.abc import Mapping
from decimal import Decimal
from enum import StrEnum
from functools import cache, cached_property
from importlib import import_module
from typing import NamedTuple

from msgspec import Struct, field

from warmside.core.values.scales import Scale
from warmside.core.values.units import Unit


class System(StrEnum):
    """A family of scales that are used together."""

    METRIC = "metric"
    IMPERIAL = "imperial"


class Bare(StrEnum):
    """What a number without a unit means."""

    SHOWN = "as shown"  # the scale in which the collection shows it; refused without a collection
    ALWAYS = "always"  # as SHOWN, and plain without a collection
    NEVER = "never"


class Rung(NamedTuple):
    """A scale that is used for numbers below a limit, with its decimals.

    `decimals` None means three significant digits, never fewer than the whole number has. With
    `above`, whole numbers of that larger scale stand in front, as in `2 lb 3.5 oz`. `zeros` keeps
    zeros at the end; a number that is not quite `short_of` is never rounded to it.
    """

    scale: Scale
    below: Decimal | None = None
    decimals: int | None = None
    above: Scale | None = None
    zeros: bool = False
    short_of: Decimal | None = None


def rung(
    scale: Scale, below: int | None = None, decimals: int | None = None, above: Scale | None = None
) -> Rung:
    """A scale of a style, for numbers below the limit (none: for all others), with its decimals."""
    return Rung(scale, None if below is None else Decimal(below), decimals, above)


class Style(NamedTuple):
    """How a value is shown: by the first rung that is wide enough.

    `table` is the one scale of a whole column or axis, and that of a number typed without a unit.
    """

    table: Scale
    rungs: tuple[Rung, ...]


def style(table: Scale, *rungs: Rung) -> Style:
    """How values are shown: tables in one scale, single values by rungs, else as in tables."""
    return Style(table, rungs or (Rung(table),))


class Limit(NamedTuple):
    """A bound of what may be typed, and what is said beyond it."""

    value: Decimal
    wrong: str
    remedy: str


NOT_BELOW_ZERO = Limit(Decimal(0), "is below zero", "write it without minus")
NOT_TOO_LARGE = Limit(Decimal(10) ** 12, "is too large", "check the number and its unit")


class Measure(Struct, frozen=True, dict=True):
    """A unit's scales, the stored one first, and how its values are typed and shown.

    `imperial` None means as `metric`. A measure that `follows` another unit is shown in that one's
    system unless the keeper chose otherwise. `examples` are typed values, `note` stands behind
    them; `words` name the quantity in an error ("a count"). `refused` holds names that are usual
    but have no exact scale, each with what is wrong and what to do. `least` None allows all signs.
    The two ends of a range are said `apart` where no one scale suits both, as with ages.
    """

    scales: tuple[Scale, ...]
    metric: Style
    examples: tuple[str, ...]
    words: str
    imperial: Style | None = None
    follows: Unit | None = None
    note: str = ""
    bare: Bare = Bare.SHOWN
    least: Limit | None = NOT_BELOW_ZERO
    most: Limit = NOT_TOO_LARGE
    whole: bool = False
    apart: bool = False
    refused: Mapping[str, tuple[str, str]] = field(default_factory=dict)

    @cached_property
    def by_name(self) -> dict[str, Scale]:
        """The scale of every name that may be typed, in folded case."""
        return {name.casefold(): scale for scale in self.scales for name in scale.names}

    @cached_property
    def offered(self) -> tuple[Scale, ...]:
        """Two usual scales, for a number that lacks one; one where there is no other."""
        ours = self.metric.table
        others = [self.imperial.table] if self.imperial else []
        return (ours, *[s for s in (*others, *self.scales) if s != ours][:1])

    def style(self, system: System) -> Style:
        """How values are shown in a system."""
        return self.imperial if self.imperial and system is System.IMPERIAL else self.metric

    def style_with(self, scale: Scale) -> Style:
        """The style whose tables use the scale; else one that uses nothing but it."""
        for known in (self.metric, self.imperial):
            if known and known.table == scale:
                return known
        return style(scale)


@cache
def measure_of(unit: Unit) -> Measure:
    """The measure of a unit, imported when first asked for."""
    module, _, name = unit.measure.partition(":")
    found = getattr(import_module(module), name)
    if not isinstance(found, Measure):
        raise TypeError(f"unit {unit.name}: {unit.measure} is no Measure")
    return found
