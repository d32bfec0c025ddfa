"""The rules that a keeper may set, with their defaults, limits, sources and marks."""

from __future__ import annotations

from collections.abc import Mapping
from functools import cache

from msgspec import Struct

from warmside.api import (
    OWN_RECORDS,
    BadInput,
    Basis,
    Display,
    Mark,
    Setting,
    Source,
    Unit,
    format_quantity,
)
from warmside.plugins.feeding.settings import RULES


class Rules(Struct, frozen=True, cache_hash=True):
    """The values in force, each explained by the row of its name; `display` is for words."""

    display: Display
    arrival_days: float
    move_days: float
    opaque_days: float
    before_slough_days: float
    regurgitation_days: float
    regurgitation_percent: float
    regurgitation_meals: float
    regurgitation_repeat_days: float
    gravid_percent: float
    cooling_before_days: float
    cooling_after_days: float
    retry_days: float
    fresh_days: float
    possible_loss_percent_per_week: float
    most_items: float
    acute_loss_percent: float
    acute_days: float
    chronic_loss_percent: float
    chronic_days: float
    fast_intervals: float
    balance_weeks: float
    surplus_ratio: float
    surplus_weeks: float
    freezer_days: float
    stock_weeks: float

    def basis(self, name: str, events: tuple[int, ...] = ()) -> Basis:
        """Where the value of a rule comes from: its row, or the keeper who changed it."""
        rule, value = rule_rows()[name], getattr(self, name)
        assert rule.unit is not None
        said = format_quantity(value, rule.unit, self.display)
        source = _source(rule) if value == rule.default else OWN_RECORDS
        return Basis(f"{rule.help}: {said}", source, events)

    def grams(self, mass_g: float, digits: int | None = 3) -> str:
        """A mass as the collection shows it."""
        return format_quantity(mass_g, Unit.MASS, self.display, digits=digits)


@cache
def rule_rows() -> Mapping[str, Setting]:
    """All rules by name, in the order of the settings."""
    return {s.name: s for s in RULES}


def _source(rule: Setting) -> Source:
    text, _, mark = rule.source.removesuffix("]").rpartition(" [")
    return Source(text, Mark(mark))


def rules_with(values: Mapping[str, float], display: Display) -> Rules:
    """The defaults with the keeper's values in their place; BadInput outside the limits."""
    known = rule_rows()
    for name, value in values.items():
        if name not in known:
            raise BadInput(f"no feeding rule {name!r}; the rules are {', '.join(known)}")
        low, high = known[name].least, known[name].most
        assert low is not None and high is not None
        if not low <= value <= high:
            raise BadInput(f"{name} {value:g} is outside {low:g} to {high:g}; give a value between")
    return Rules(display, **{n: float(values.get(n, rule.default)) for n, rule in known.items()})
