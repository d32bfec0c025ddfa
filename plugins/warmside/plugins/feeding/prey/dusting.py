"""Which powder goes on insects or greens: by days, by the kind of animal, and by UVB light."""

from __future__ import annotations

from collections.abc import Iterable
from datetime import date
from functools import cache

from msgspec import Struct

from warmside.api import Source, every_days, sourced_rows

PACKAGE = "warmside.plugins.feeding"
D3, VITAMINS = "calcium-d3", "multivitamin"
Used = Iterable[tuple[date, str]]


class Dust(Struct, frozen=True):
    """A powder."""

    code: str
    name: str
    source: Source


class DustPlan(Struct, frozen=True):
    """The powders of one kind of animal: `base` on most meals, others every so many days.

    `base_days` 0: at each meal; `every` holds days by the code of a powder that is used seldom.
    """

    kind: str
    base: Dust
    base_days: int
    every: tuple[tuple[str, int], ...]
    uvb: bool
    needs_uvb: bool
    source: Source

    @property
    def words(self) -> str:
        """The plan as a keeper would say it."""
        often = every_days(self.base_days) if self.base_days > 1 else "otherwise"
        seldom = [f"{_named(code).name} {every_days(days)}" for code, days in self.every]
        return ", ".join((*seldom, f"{self.base.name} {often if seldom else 'each time'}"))


@cache
def powders() -> tuple[Dust, ...]:
    """The powders that can be recorded."""
    rows = sourced_rows(PACKAGE, "dusting", "powder")
    return tuple(Dust(row["code"], row["name"], row.source) for row in rows)


@cache
def dust_plan(latin: str, family: str, stage: str | None, uvb: bool | None) -> DustPlan | None:
    """The powders of an animal; None where none is known or needed.

    Where UVB is not known the plan with it: it holds less vitamin D3, which harms in excess. An
    unknown stage is taken as grown.
    """
    kind = _kind(latin, family)
    for row in sourced_rows(PACKAGE, "dusting", "plan"):
        fits = row["for"] == kind and (stage or "adult") in row["stages"]
        if fits and row["uvb"] is (uvb is not False):
            days = ((D3, row["calcium_d3_days"]), (VITAMINS, row["multivitamin_days"]))
            every = tuple((code, int(n)) for code, n in days if n)
            base, base_days = _named(row["base"]), int(row.get("base_days", 0))
            needs = bool(row.get("needs_uvb"))
            return DustPlan(row["for"], base, base_days, every, row["uvb"], needs, row.source)
    return None


def powder_on(plan: DustPlan, used: Used, day: date, *, calcium: bool = False) -> Dust | None:
    """The powder for a meal on a day, from those used before; None on a day without.

    The seldom one that is longest overdue, else the base. Nothing on record: the base. With
    `calcium` (a gravid animal) always the base.
    """
    past = [(on, code) for on, code in used if on < day]
    if calcium or not past:
        return plan.base
    first = min(on for on, _ in past)
    over = {}
    for code, days in plan.every:
        last = max((on for on, c in past if c == code), default=first)
        over[code] = (day - last).days / days
    most = max(over, key=lambda code: over[code], default="")
    if most and over[most] >= 1:
        return _named(most)
    since = (day - max(on for on, _ in past)).days
    return plan.base if since >= plan.base_days else None


def as_planned(plan: DustPlan, meals: Iterable[tuple[date, str | None]]) -> list[tuple[date, str]]:
    """The powders of past meals, those without a record taken as the plan had asked for."""
    used = list[tuple[date, str]]()
    for day, code in sorted(meals, key=lambda m: m[0]):
        dust = powder_on(plan, used, day)
        if code or dust:
            used.append((day, code or (dust.code if dust else "")))
    return used


def _named(code: str) -> Dust:
    return next(p for p in powders() if p.code == code)


def _kind(latin: str, family: str) -> str:
    known = (latin, latin.split(" ")[0], family.strip().lower())
    for row in sourced_rows(PACKAGE, "dusting", "eater"):
        if any(name in row["names"] for name in known if name):
            return str(row["for"])
    return ""
