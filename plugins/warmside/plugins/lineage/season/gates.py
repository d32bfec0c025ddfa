"""Whether an animal is fit to be paired: mass, age, condition and rest, held against settings."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date

from msgspec import Struct

from warmside.api import Basis, Display, PartialDate, Unit, format_quantity

FRESH_DAYS = 60  # so old a weight may be to tell anything of a pairing; common practice, no source


class Fitness(Struct, frozen=True):
    """What is known of an animal: newest mass with its day, hatched, condition, last clutch.

    `carries` says that she is gravid: then no gate holds any more.
    """

    sex: str
    mass_g: float | None = None
    weighed: date | None = None
    hatched: PartialDate | None = None
    condition: int | None = None
    scored: date | None = None
    last_laid: date | None = None
    carries: bool = False
    events: tuple[int, ...] = ()


class Limit(Struct, frozen=True):
    """A limit that the keeper set or that ships; 0 is none."""

    value: float
    basis: Basis


class Limits(Struct, frozen=True):
    """From which mass (g) and age (days) on an animal is paired, and the days after laying."""

    mass: Limit
    age: Limit
    rest: Limit


class Gate(Struct, frozen=True):
    """One gate: whether it is held (None: that is not known), what is said of it, and why."""

    what: str
    held: bool | None
    words: str
    basis: Basis


def gates(who: Fitness, limits: Limits, display: Display, on: date) -> Iterator[Gate]:
    """All gates; that no least mass is set is said, too."""
    yield _mass(who, limits.mass, display, on)
    if limits.age.value:
        yield _age(who, limits.age, on)
    yield _condition(who, on)
    if who.sex == "female" and limits.rest.value:
        yield _rest(who, limits.rest, on)


def _mass(who: Fitness, limit: Limit, display: Display, on: date) -> Gate:
    if not limit.value:
        return Gate("mass", None, "no least mass is set for this species", limit.basis)
    least = format_quantity(limit.value, Unit.MASS, display)
    if who.mass_g is None or who.weighed is None:
        return Gate("mass", None, f"not weighed yet; at least {least} is set", limit.basis)
    has = format_quantity(who.mass_g, Unit.MASS, display)
    if (on - who.weighed).days > FRESH_DAYS and who.mass_g >= limit.value:
        told = f"{has} on {who.weighed}, which is long ago: weigh again (at least {least})"
        return Gate("mass", None, told, limit.basis)
    return Gate("mass", who.mass_g >= limit.value, f"{has}, at least {least} is set", limit.basis)


def _age(who: Fitness, limit: Limit, on: date) -> Gate:
    least = format_quantity(limit.value, Unit.AGE, Display.METRIC)
    if who.hatched is None:
        return Gate("age", None, f"not known; at least {least} is set", limit.basis)
    oldest = (on - who.hatched.earliest).days
    youngest = (on - who.hatched.latest).days
    told = f"hatched {who.hatched.text}, at least {least} is set"
    held = True if youngest >= limit.value else None if oldest >= limit.value else False
    return Gate("age", held, told, limit.basis)


def _condition(who: Fitness, on: date) -> Gate:
    basis = Basis("1 or 2 is thin and 5 obese: neither is paired (common practice, no source)")
    if who.condition is None or who.scored is None or (on - who.scored).days > FRESH_DAYS:
        return Gate("condition", None, f"not scored in the last {FRESH_DAYS} days", basis)
    told = f"{who.condition} of 5 on {who.scored}"
    return Gate("condition", 3 <= who.condition <= 4, told, basis)


def _rest(who: Fitness, limit: Limit, on: date) -> Gate:
    if who.last_laid is None:
        return Gate("rest", None, "no clutch of hers is on record", limit.basis)
    days = (on - who.last_laid).days
    told = f"laid {days} days ago, at least {limit.value:g} is set"
    return Gate("rest", days >= limit.value, told, limit.basis)


def failed(found: Iterator[Gate]) -> tuple[Gate, ...]:
    """The gates that are not held."""
    return tuple(g for g in found if g.held is False)
