"""Traits known to harm that pairs at hand may give to their young."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date
from typing import NamedTuple

from warmside.api import Ask, BadInput
from warmside.plugins.genes.reading.doubts import RESTS_ON
from warmside.plugins.genes.reading.family import Kin, kin_of
from warmside.plugins.genes.traits.catalogue import Trait
from warmside.plugins.genes.traits.words import Carries, Known

LEAST = 0.05
"""A chance for each young from which a harm is told of (common practice, no source).

It lies above what is assumed of animals of which nothing is known.
"""


class Harm(NamedTuple):
    """A pair by its ids, a trait by name, and the chances that a young is harmed by it.

    `lost` is the chance of two copies where these are said not to live.
    """

    dam: int
    sire: int
    trait: str
    shown: float
    lost: float


def harms(ask: Ask, on: date) -> list[Harm]:
    """What pairs that may have young now may harm them with; kept until something changes."""
    pairs = [(int(p.first.animal_id or 0), int(p.second.animal_id or 0)) for p in ask.pairs(on)]
    if not pairs:
        return []
    key = f"genes.harms {' '.join(f'{d}-{s}' for d, s in pairs)}"
    make = lambda: [list(h) for pair in pairs for h in _of(ask, *pair)]  # noqa: E731
    return [Harm(*kept) for kept in ask.book.derived(key, RESTS_ON, make)]


def _of(ask: Ask, dam: int, sire: int) -> Iterator[Harm]:
    animals = ask.book.animals
    kin = kin_of(ask, [animals[dam], animals[sire]], None)
    told = harmful(kin)
    if told:
        loci = list(dict.fromkeys(t.locus for t in told))
        narrow = kin_of(ask, [animals[dam], animals[sire]], None, loci)
        try:
            yield from _reckoned(narrow, told, dam, sire)
        except BadInput:  # too closely interwoven to reckon with
            return


def harmful(kin: Kin) -> list[Trait]:
    """The traits that harm is told of and that anyone in the family is said to carry."""
    told = (s.known for said in kin.said.values() for s in said)
    carried = {name for known in told if known for name in _alleles(known)}
    traits = kin.catalogue.traits
    return [t for t in traits if t.name in carried and (t.welfare or t.lethal_twice)]


def _alleles(known: Known) -> tuple[str, ...]:
    """The alleles that an animal is said to carry."""
    if known.carries in (Carries.NORMAL, Carries.FREE):
        return ()
    return known.pair.alleles if known.pair else (known.trait.name,)


def _reckoned(kin: Kin, told: list[Trait], dam: int, sire: int) -> Iterator[Harm]:
    from warmside.plugins.genes.inheritance.harm import shows, twice
    from warmside.plugins.genes.inheritance.settled import settled

    model = settled(kin.family, ((dam, sire),)).model
    if model is None:
        return
    known = {x.name for group in model.family.groups for x in group.loci}
    for trait in told:
        if trait.locus in known:
            both = twice(model, (dam, sire), trait.locus, trait.name)
            once = shows(model, (dam, sire), trait.locus, trait.name)
            shown = (both if trait.harms_twice else once) if trait.welfare else 0.0
            if max(shown, lost := both if trait.lethal_twice else 0.0) >= LEAST:
                yield Harm(dam, sire, trait.name, shown, lost)
