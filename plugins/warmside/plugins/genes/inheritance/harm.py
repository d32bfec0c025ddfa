"""How likely a young of a pair is to show a trait, or to have it twice."""

from __future__ import annotations

from warmside.plugins.genes.inheritance.facts import Id
from warmside.plugins.genes.inheritance.group import Group
from warmside.plugins.genes.inheritance.loci import NORMAL
from warmside.plugins.genes.inheritance.model import Model
from warmside.plugins.genes.inheritance.pairing import Looks, offspring

YES = ("yes",)


def shows(model: Model, pair: tuple[Id, Id], locus: str, allele: str) -> float:
    """The chance that a young shows an allele; the model was made with the pair together."""

    def tell(group: Group, state: int) -> Looks:
        for at, known in enumerate(group.loci):
            if known.name == locus:
                genotype = group.genotype(state, at)
                return YES if allele in genotype and known.look(genotype) != NORMAL else ("no",)
        return ()

    return offspring(model, *pair, tell).chances().get(YES, 0.0)


def twice(model: Model, pair: tuple[Id, Id], locus: str, allele: str) -> float:
    """The chance that a young has two copies of an allele."""

    def tell(group: Group, state: int) -> Looks:
        for at, known in enumerate(group.loci):
            if known.name == locus:
                return YES if group.genotype(state, at).count(allele) == 2 else ("no",)
        return ()

    return offspring(model, *pair, tell).chances().get(YES, 0.0)
