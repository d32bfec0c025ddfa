"""The whole diet of one animal: each part looked at alone, by its own rhythm."""

from __future__ import annotations

from collections.abc import Collection, Iterator
from datetime import date

from msgspec import Struct
from msgspec.structs import replace

from warmside.plugins.feeding.care.rules import Rules
from warmside.plugins.feeding.planning.next_meal import Plan, due, plan
from warmside.plugins.feeding.planning.subject import Subject
from warmside.plugins.feeding.prey.classes import known_prey


class PartPlan(Struct, frozen=True):
    """The plan of one part; `subject` is the animal with that part in view and its meals of it."""

    subject: Subject
    plan: Plan

    @property
    def key(self) -> str:
        """The part's key, the same from day to day."""
        return self.subject.species.part.key

    @property
    def item(self) -> str:
        """What is fed, as it is recorded; empty where the keeper must say how much of what."""
        if self.plan.fits:
            return self.plan.fits[0].prey.name
        first = next(iter(self.subject.species.part.classes()), None)
        if first is not None and first.plant:
            return first.name
        return "" if self.subject.species.part.percent else self.part_said

    @property
    def part_said(self) -> str:
        """The part's name, where the diet has several; a meal may be recorded so."""
        several = len({p.key for p in self.subject.species.diet.parts}) > 1
        return self.subject.species.part.name if several else ""

    @property
    def words(self) -> str:
        """`2 × adult mouse`, `leafy greens`, or the name of the part."""
        return self.plan.fits[0].dish if self.plan.fits else self.item or self._part_name

    @property
    def _part_name(self) -> str:
        return self.subject.species.part.name if self.subject.species.diet.parts else ""


def subjects_by_part(subject: Subject) -> Iterator[Subject]:
    """The animal once for each part of its diet at its stage; as it is where none is known."""
    species = subject.species
    if len(species.diet.parts) < 2:
        yield subject
        return
    newest = sorted(subject.offers, key=lambda o: o.day)
    eaten = [p.code for o in newest if not o.refused and (p := known_prey(o.prey))]
    several = len({p.key for p in species.diet.parts}) > 1
    items = {o.prey for o in subject.offers} if several else ()
    keys = {item: species.diet.key_of(item) for item in items}
    for part in species.diet.at(subject.stage, eaten):
        mine = tuple(o for o in subject.offers if keys[o.prey] == part.key) if several else ()
        offers = mine if several else subject.offers
        yield replace(subject, species=species.with_part(part), offers=offers)


def whole_plan(
    subject: Subject, day: date, rules: Rules, only: Collection[str] | None = None
) -> tuple[PartPlan, ...]:
    """The plans as seen on a day of all parts, or of those of the keys `only`; the staple first."""
    asked = (s for s in subjects_by_part(subject) if only is None or s.species.part.key in only)
    return tuple(PartPlan(s, plan(s, day, rules)) for s in asked)


def due_parts(
    subject: Subject, day: date, rules: Rules, without: Collection[str] = ()
) -> tuple[str, ...]:
    """Keys of the parts that may be fed on a day, but those `without`: quick, for a whole round."""
    asked = (s for s in subjects_by_part(subject) if s.species.part.key not in without)
    firsts = ((s.species.part.key, due(s, day, rules)[0]) for s in asked)
    return tuple(key for key, first in firsts if first is not None and first <= day)
