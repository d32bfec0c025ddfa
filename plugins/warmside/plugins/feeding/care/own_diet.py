"""A diet as the keeper set it for an animal or for all of a species."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from msgspec import Struct
from msgspec.structs import replace

from warmside.api import OWN_RECORDS
from warmside.plugins.feeding.care.diets import Diet, Part, Stage, named_diets
from warmside.plugins.feeding.care.species import Species, own_part, with_diet
from warmside.plugins.feeding.energy.rates import Span


class OwnPart(Struct, frozen=True):
    """A part as it was set: from a named `diet`, or from the species' own where that is empty.

    What is None or empty is as there.
    """

    part: str
    diet: str = ""
    foods: tuple[str, ...] = ()
    days: Span | None = None
    percent: Span | None = None


def from_named(diet: Diet) -> tuple[OwnPart, ...]:
    """The parts of a named diet, as they are set."""
    return tuple(OwnPart(key, diet.name) for key in dict.fromkeys(p.key for p in diet.parts))


def from_species(species: Species) -> tuple[OwnPart, ...]:
    """The parts of a species' diet, as they are set before one of them is changed."""
    return tuple(OwnPart(key) for key in dict.fromkeys(p.key for p in species.diet.parts))


def with_part_set(known: Sequence[OwnPart], new: OwnPart) -> tuple[OwnPart, ...]:
    """The parts with one changed or added; what the new one does not say stays as it was."""
    old = next((p for p in known if p.part == new.part), None)
    if old is None:
        return (*known, new)
    told = OwnPart(
        new.part,
        old.diet,
        new.foods or old.foods,
        new.days or old.days,
        new.percent or old.percent,
    )
    return tuple(told if p.part == new.part else p for p in known)


def on_own_diet(species: Species, parts: Sequence[OwnPart]) -> Species:
    """The species on the keeper's diet."""
    made = tuple(part for own in parts for part in _parts(species, own))
    names = {own.diet for own in parts}
    base = named_diets().get(names.pop()) if len(names) == 1 else None
    words = base.words if base else "as its keeper set it"
    return with_diet(species, Diet(base.name if base else "", words, made, OWN_RECORDS))


def _parts(species: Species, own: OwnPart) -> Iterator[Part]:
    base = named_diets()[own.diet] if own.diet else species.diet
    found = [p for p in base.parts if p.key == own.part] or [_new(species, own)]
    for part in found:
        told = own_part(part, own.days, own.percent, own.foods or None)
        yield replace(told, source=OWN_RECORDS)


def _new(species: Species, own: OwnPart) -> Part:
    """A part that neither the species nor a named diet has: as often as its group eats."""
    days = dict.fromkeys(Stage, own.days) if own.days else species.part.days
    of = OWN_RECORDS
    return Part(own.part, own.part, own.foods, days, {}, {}, "as its keeper judges", of, of, of)
