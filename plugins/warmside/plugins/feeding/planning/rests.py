"""How long an animal is left without food after what upsets it, by body form and life stage."""

from __future__ import annotations

from collections.abc import Mapping
from functools import cache, lru_cache
from typing import Any

from msgspec import Struct

from warmside.api import OWN_RECORDS, Basis, Mark, Source, SourcedRow, Valued, counted, sourced_rows
from warmside.plugins.feeding.care.rules import Rules, rule_rows
from warmside.plugins.feeding.care.stages import Stages
from warmside.plugins.feeding.energy.rates import Span

PACKAGE = "warmside.plugins.feeding"
SNAKE = "snake"
# The rule that a keeper may set in the place of each entry of the table.
RULES = {
    "arrival": "arrival_days",
    "move": "move_days",
    "opaque": "opaque_days",
    "regurgitation": "regurgitation_days",
}

SAID = {
    "arrival": "arrival",
    "move": "a move",
    "opaque": "opaque eyes, at most",
    "slough": "a shed",
    "regurgitation": "a regurgitation",
}


class Rests(Struct, frozen=True):
    """The rests of one animal in days, and where they come from.

    `retry`: from a refusal to the next offer, earliest and latest. `form` is its body form.
    """

    form: str
    arrival: float
    move: float
    opaque: float
    slough: float
    regurgitation: float
    retry: Span
    source: Source
    rules: Rules
    kept: frozenset[str] = frozenset()

    def basis(self, name: str) -> Basis:
        """Where a rest comes from: the table by form and stage, or the keeper who set it."""
        if name in self.kept:
            return self.rules.basis(RULES[name])
        days = getattr(self, name)
        whom = f"for a {self.form} of its stage"
        if name == "retry":
            low, high = self.retry
            span = counted(low, "day") if low == high else f"{low:g} to {high:g} days"
            return Basis(
                f"offered again {span} after a refusal, {whom}",
                self.source,
            )
        return Basis(f"{counted(days, 'day')} without food after {SAID[name]}, {whom}", self.source)


def rests_for(
    form: str, latin: str, stages: Stages, rules: Rules, retry: Valued | None = None
) -> Rests:
    """The rests of an animal; the shortest over all stages that are possible.

    What the keeper set comes before the table: a rule, or a `retry` for the species or animal.
    """
    return _rests(form, latin, stages, rules, _own_retry(rules, retry))


@lru_cache(maxsize=512)
def _rests(form: str, latin: str, stages: Stages, rules: Rules, own: float | None) -> Rests:
    """Worked out once for all animals that are alike: a round asks some thousand times."""
    row, source = _row(form, latin)
    days = {name: _shortest(row[name], stages) for name in RULES}
    kept = frozenset(n for n, rule in RULES.items() if getattr(rules, rule) != _default(rule))
    days |= {name: getattr(rules, RULES[name]) for name in kept}
    again = _first_span(row["retry"], stages) if own is None else (own, own)
    return Rests(
        form,
        **days,
        slough=_shortest(row["slough"], stages),
        retry=again,
        source=source if own is None else OWN_RECORDS,
        rules=rules,
        kept=kept,
    )


def _own_retry(rules: Rules, retry: Valued | None) -> float | None:
    """Days to the next offer as the keeper set them, the narrowest first; None where unset."""
    if retry and retry.basis.source.mark is Mark.KEEPERS_OWN:
        return float(retry.value)
    return rules.retry_days if rules.retry_days != _default("retry_days") else None


@cache
def _default(rule: str) -> float:
    return float(rule_rows()[rule].default)


@cache
def _row(form: str, latin: str) -> tuple[Mapping[str, Any], Source]:
    rows = {form: row for row in sourced_rows(PACKAGE, "rests", "rest") for form in row["forms"]}
    general = rows.get(form, rows["lizard"])
    for own in sourced_rows(PACKAGE, "rests", "species"):
        if own["latin"] == latin:
            return SourcedRow({**general, **own}), own.source
    return general, general.source


def _shortest(by_stage: Mapping[str, Any], stages: Stages) -> float:
    return float(min(by_stage[stage] for stage in stages))


def _first_span(by_stage: Mapping[str, Any], stages: Stages) -> Span:
    low, high = min(by_stage[stage] for stage in stages)
    return float(low), float(high)
