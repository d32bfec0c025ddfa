"""The life stage with its reason in words, for whoever asks."""

from __future__ import annotations

from msgspec import Struct
from msgspec.structs import replace

from warmside.core.record.species.figures import Form, StageLimits
from warmside.core.record.species.life_stage import (
    SURELY_GROWN_DAYS,
    UNKNOWN,
    USUAL_AGES,
    Life,
    LifeStage,
    Weight,
    is_grown_by_age,
    possible_stages,
    stage_by_mass,
    stages_under,
)
from warmside.core.values.basis import Basis, Source
from warmside.core.values.counts import counted
from warmside.core.values.quantities import format_quantity
from warmside.core.values.units import Unit


class Staged(Struct, frozen=True):
    """The life stage, or None where several are `possible`; why, in words, and by which figures."""

    stage: LifeStage | None
    possible: tuple[LifeStage, ...]
    life: Life

    @property
    def basis(self) -> Basis:
        """The rule that settled it, or what is missing, with its source and the weighing."""
        return _basis(self.stage, self.life)

    @property
    def reason(self) -> str:
        """Why, in words: `weighs 450 g, adult from 300 g`."""
        return self.basis.rule

    def at(self, mass_g: float) -> Staged:
        """The same animal at another mass, weighed today: for what is expected or forecast."""
        return staged(replace(self.life, weight=Weight(mass_g, 0)))


def staged(life: Life) -> Staged:
    """The life stage: adult by age, else by the mass of a fresh weighing, else by age."""
    possible = possible_stages(life)
    stage = possible[0] if len(possible) == 1 else None
    return Staged(stage, possible, life)


def _basis(stage: LifeStage | None, life: Life) -> Basis:
    if stage is None:
        return Basis(_missing(life), USUAL_AGES)
    limits = [one for _, one in life.limits]
    events = (life.weight.event,) if life.weight and life.weight.event else ()
    if all(is_grown_by_age(one, life.form, life.age[0]) for one in limits or [UNKNOWN]):
        return Basis(f"{_age(life)}, adult from {_adult_age(life)}", _age_source(limits))
    if life.weight and life.weight.is_fresh and limits and limits[0].mass_source:
        return Basis(_by_mass(stage, life, limits), limits[0].mass_source, events)
    return Basis(f"{_age(life)}, no fresh weighing", USUAL_AGES, events)


def _by_mass(stage: LifeStage, life: Life, limits: list[StageLimits]) -> str:
    assert life.weight is not None
    starts = {
        LifeStage.JUVENILE: [one.juvenile_g for one in limits],
        LifeStage.SUBADULT: [one.subadult_g for one in limits],
        LifeStage.ADULT: [one.adult_g for one in limits],
    }
    told = [f"{s} from {_masses(life, g)}" for s, g in starts.items() if any(g)]
    by_mass = stage_by_mass(limits[0], life.weight.mass_g)
    old = f", {_age(life)}" if by_mass is not stage else ""
    return f"weighs {_mass(life, life.weight.mass_g)}{old}; {', '.join(told)}"


def _missing(life: Life) -> str:
    """What would settle it."""
    if not life.limits:
        return f"no masses and ages of life stages are known for {life.species}"
    if len(life.limits) > 1:
        mine = [(sex, tuple(stages_under(one, life))) for sex, one in life.limits]
        if all(len(stages) == 1 for _, stages in mine):
            either = ", ".join(f"{stages[0]} as a {sex}" for sex, stages in mine)
            return f"its sex is not known: {either}"
    if life.weight is None and life.age[1] is None:
        return "neither its age nor its weight is known well enough"
    if life.weight and not life.weight.is_fresh:
        return f"the last weighing is {counted(life.weight.days_ago, 'day')} old"
    return "its age is not known well enough"


def _age_source(limits: list[StageLimits]) -> Source:
    return (limits[0].age_source if limits else None) or USUAL_AGES


def _adult_age(life: Life) -> str:
    days = [one.adult_days for _, one in life.limits if one.adult_days]
    grown = max(days) if days else SURELY_GROWN_DAYS[life.form or Form.TORTOISE]
    return format_quantity(grown, Unit.AGE, life.display)


def _age(life: Life) -> str:
    least, greatest = life.age
    told = format_quantity(least, Unit.AGE, life.display)
    return f"{told} old" if greatest == least else f"at least {told} old"


def _mass(life: Life, mass_g: float) -> str:
    return format_quantity(mass_g, Unit.MASS, life.display)


def _masses(life: Life, found: list[float | None]) -> str:
    given = sorted({g for g in found if g})
    return " or ".join(_mass(life, g) for g in given)
