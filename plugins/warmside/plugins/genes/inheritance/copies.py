"""How many copies of an allele an animal has, from the chances of its genotypes."""

from __future__ import annotations

from collections.abc import Mapping
from typing import NamedTuple

from warmside.plugins.genes.inheritance.loci import ABSENT, Genotype


class Copies(NamedTuple):
    """The chances of no copy, one that need not show, and all that it can have."""

    none: float
    one: float
    all: float


def copies(chances: Mapping[Genotype, float], allele: str) -> Copies:
    """The chances by the number of copies; of a chromosome that stands alone one copy is all."""
    none = one = both = 0.0
    for pair, chance in chances.items():
        have = pair.count(allele)
        if have == 0:
            none += chance
        elif have == 2 or ABSENT in pair:
            both += chance
        else:
            one += chance
    return Copies(none, one, both)
