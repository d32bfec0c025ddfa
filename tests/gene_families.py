"""Families of one or two traits for tests, written shortly."""

from __future__ import annotations

from warmside.plugins.genes.inheritance.facts import Candidates, Fact, Member, Prior, looks
from warmside.plugins.genes.inheritance.group import Group
from warmside.plugins.genes.inheritance.loci import Allele, Locus, Shows, genotype

A = Locus("a", (Allele("a", Shows.RECESSIVE),))
B = Locus("b", (Allele("b", Shows.RECESSIVE),))
ONE = Group((A,))
FREE, HET, BOTH = genotype("+", "+"), genotype("+", "a"), genotype("a", "a")


def young(id: str, dam: str, sire: str, sex: str = "unknown") -> Member:
    """The certain young of two."""
    return Member(id, sex, Candidates({dam: 1.0}), Candidates({sire: 1.0}))


def normal(*ids: str, locus: Locus = A) -> tuple[Fact, ...]:
    """They look normal."""
    return tuple(looks(id, locus, "normal") for id in ids)


def visual(*ids: str, locus: Locus = A) -> tuple[Fact, ...]:
    """They show the trait."""
    return tuple(looks(id, locus, locus.alleles[0].name) for id in ids)


def perhaps(id: str, share: float, locus: Locus = A) -> Prior:
    """Het with that chance, else free."""
    pair = genotype("+", locus.alleles[0].name)
    return Prior(id, locus.name, {pair: share, FREE: 1 - share})


def surely(id: str, locus: Locus = A) -> Prior:
    """Visual, whatever the frequency."""
    name = locus.alleles[0].name
    return Prior(id, locus.name, {genotype(name, name): 1.0})


def random_mating(id: str, share: float) -> Prior:
    """Hardy-Weinberg with that share of the allele."""
    chances = {FREE: (1 - share) ** 2, HET: 2 * share * (1 - share), BOTH: share**2}
    return Prior(id, "a", chances)
