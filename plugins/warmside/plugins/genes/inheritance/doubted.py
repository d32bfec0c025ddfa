"""Statements that the rest of what is known leaves unlikely."""

from __future__ import annotations

from collections.abc import Iterator
from typing import NamedTuple

from msgspec.structs import replace

from warmside.plugins.genes.exact.network import Impossible
from warmside.plugins.genes.inheritance.facts import Fact, Prior
from warmside.plugins.genes.inheritance.loci import WILD
from warmside.plugins.genes.inheritance.model import Family, Model
from warmside.plugins.genes.inheritance.settled import STATED

EVEN = 0.5
"""How likely a statement is held to be before the young are looked at."""


class Doubted(NamedTuple):
    """A statement with its chance when it is not taken as certain but as even."""

    fact: Fact
    chance: float


def doubted(family: Family, below: float) -> Iterator[Doubted]:
    """Stated single copies that are less likely than `below` by everything else that is known."""
    for fact in family.facts:
        chance = _chance(family, fact) if fact.source == STATED else None
        if chance is not None and chance < below:
            yield Doubted(fact, chance)


def _chance(family: Family, fact: Fact) -> float | None:
    """The chance of a stated het; None for other statements, and where the rest is impossible."""
    if len(fact.possible) != 1:
        return None
    (pair,) = fact.possible
    if pair.count(WILD) != 1:
        return None
    even = Prior(fact.animal, fact.locus, {pair: EVEN, (WILD, WILD): 1 - EVEN})
    others = tuple(f for f in family.facts if f is not fact)
    try:
        chances = Model(replace(family, facts=others, priors=(*family.priors, even))).genotypes(
            fact.animal, fact.locus
        )
    except Impossible:
        return None
    return chances.get(pair, 0.0)
