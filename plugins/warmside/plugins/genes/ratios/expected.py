"""What looks two parents give at a locus, in exact shares, and how many young show each."""

from __future__ import annotations

from collections.abc import Collection, Iterable, Mapping
from fractions import Fraction
from itertools import product

from msgspec import Struct

from warmside.plugins.genes.inheritance.loci import Genotype, Locus, genotype

Shares = Mapping[str, Fraction]


class Counted(Struct, frozen=True):
    """Young by their look, and how many of them tell of none."""

    looks: Mapping[str, int]
    silent: int


def shares(locus: Locus, dam: Genotype, sire: Genotype, dead: Collection[Genotype] = ()) -> Shares:
    """The share of each look among the young that live, by Mendel's first law.

    `dead` are the genotypes of which no young hatch.
    """
    found: dict[str, Fraction] = {}
    for one, other in product(dam, sire):
        made = genotype(one, other)
        if made not in dead:
            look = locus.look(made)
            found[look] = found.get(look, Fraction(0)) + Fraction(1, 4)
    alive = sum(found.values())
    return {look: share / alive for look, share in found.items()}


def counted(locus: Locus, known: Iterable[frozenset[Genotype]], expected: Shares) -> Counted:
    """How many young show each look; `known` are the genotypes that each one's looks leave.

    Where looks leave several open, only those count that the parents can give. A young whose look
    is still open, or of which nothing is known, tells of none.
    """
    found = dict.fromkeys(expected, 0)
    silent = 0
    for possible in known:
        open_looks = {locus.look(pair) for pair in possible}
        left = open_looks & expected.keys() or open_looks
        if len(left) == 1:
            (look,) = left
            found[look] = found.get(look, 0) + 1
        else:
            silent += 1
    return Counted(found, silent)
