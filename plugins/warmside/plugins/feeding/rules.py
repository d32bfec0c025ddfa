"""The rules that a keeper may set, with their defaults, limits, sources and marks."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from functools import cache

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


@dataclass(frozen=True, slots=True)
class Rule:
    """One setting: its unit, default and limits, what it does, and where it comes from."""

    name: str
    unit: Unit
    default: float
    low: float
    high: float
    help: str
    source: Source


@dataclass(frozen=True, slots=True)
class Rules:
    """The values in force, each explained by the row of its name; `display` is for words."""

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
    insect_percent: float
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
    display: Display = Display.METRIC

    def basis(self, name: str, events: tuple[int, ...] = ()) -> Basis:
        """Where the value of a rule comes from: its row, or the keeper who changed it."""
        rule, value = rule_rows()[name], getattr(self, name)
        own = value != rule.default
        said = format_quantity(value, rule.unit, self.display)
        return Basis(f"{rule.help}: {said}", OWN_RECORDS if own else rule.source, events)

    def grams(self, mass_g: float, digits: int | None = 3) -> str:
        """A mass as the collection shows it."""
        return format_quantity(mass_g, Unit.MASS, self.display, digits=digits)


@cache
def rule_rows() -> Mapping[str, Rule]:
    """All rules by name, in the order of the settings."""
    return {s.name: _rule(s) for s in RULES}


def _rule(setting: Setting) -> Rule:
    text, _, mark = setting.source.removesuffix("]").rpartition(" [")
    assert setting.unit is not None and setting.least is not None and setting.most is not None
    return Rule(
        setting.name,
        setting.unit,
        float(setting.default),
        setting.least,
        setting.most,
        setting.help,
        Source(text, Mark(mark)),
    )


def rules_with(values: Mapping[str, float], display: Display = Display.METRIC) -> Rules:
    """The defaults with the keeper's values in their place; BadInput outside the limits."""
    known = rule_rows()
    for name, value in values.items():
        if name not in known:
            raise BadInput(f"no feeding rule {name!r}; the rules are {', '.join(known)}")
        if not known[name].low <= value <= known[name].high:
            limits = f"{known[name].low:g} to {known[name].high:g}"
            raise BadInput(f"{name} {value:g} is outside {limits}; give a value between")
    return Rules(**{n: values.get(n, rule.default) for n, rule in known.items()}, display=display)


@cache
def default_rules() -> Rules:
    """The rules as shipped."""
    return rules_with({})
