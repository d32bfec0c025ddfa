"""What a pair was, before its clutch was looked at: the likeliest genotypes at a locus."""

from __future__ import annotations

from collections.abc import Collection, Iterable
from typing import NamedTuple

from msgspec.structs import replace

from warmside.plugins.genes.inheritance.facts import Id
from warmside.plugins.genes.inheritance.loci import Genotype
from warmside.plugins.genes.inheritance.model import Family, Model
from warmside.plugins.genes.inheritance.settled import Settled, settled


class Likeliest(NamedTuple):
    """The likeliest genotypes of dam and sire at a locus, and how likely they are."""

    dam: Genotype
    sire: Genotype
    chance: float


def without_looks(family: Family, young: Collection[Id], pair: tuple[Id, Id]) -> Settled:
    """The family reckoned with as if nothing were known of these young."""
    facts = tuple(f for f in family.facts if f.animal not in young)
    return settled(replace(family, facts=facts), (pair,))


def likeliest(model: Model, locus: str, pair: tuple[Id, Id]) -> Likeliest:
    """The likeliest genotypes of both together; the model was made with them together."""
    number, at = next(
        (n, at)
        for n, group in enumerate(model.family.groups)
        for at, known in enumerate(group.loci)
        if known.name == locus
    )
    group = model.family.groups[number]
    joint = model.states(number, *pair)
    found: dict[tuple[Genotype, Genotype], float] = {}
    for of_dam, of_sire in zip(*joint.nonzero(), strict=True):
        both = group.genotype(int(of_dam), at), group.genotype(int(of_sire), at)
        found[both] = found.get(both, 0.0) + float(joint[of_dam, of_sire])
    (dam, sire), chance = max(found.items(), key=lambda item: item[1])
    return Likeliest(dam, sire, chance)


def possible_of(family: Family, locus: str, young: Iterable[Id]) -> list[frozenset[Genotype]]:
    """The genotypes that the facts about each young leave; empty where there is no fact."""
    found = []
    for id in young:
        facts = [f.possible for f in family.facts if f.animal == id and f.locus == locus]
        found.append(frozenset.intersection(*facts) if facts else frozenset())
    return found
