"""Kinship of two animals, or of the planned young of two, in a pedigree whose F are known.

The kinship is the sum over all common ancestors of the gene flow from each to the one and to the
other, times the share that is new in it: L D L' (Henderson 1976, Biometrics 32:69-83; Quaas 1976,
Biometrics 32:949-953, halved to kinship).
"""

from __future__ import annotations

from collections.abc import Sequence

from warmside.plugins.lineage.kinship.pedigree import UNKNOWN, Pedigree


def kinship(known: Pedigree, f: Sequence[float], one: int, other: int) -> float:
    """The chance that a gene of the one and a gene of the other are copies of one gene.

    `f` is the coefficient of inbreeding of each animal. Planned young of the two have this as
    their own F. With itself an animal's is (1 + F) / 2.
    """
    if one == other:
        return (1 + f[one]) / 2
    dams, sires = known.dam, known.sire
    youngest = max(one, other)
    # the share of each one's genes that passed through an ancestor; a place more for the unknown
    to_one, to_other = [0.0] * (youngest + 2), [0.0] * (youngest + 2)
    to_one[one] = to_other[other] = 1.0
    total = 0.0
    for place in range(youngest, -1, -1):
        mine, theirs = to_one[place], to_other[place]
        if mine:
            to_one[dams[place]] += 0.5 * mine
            to_one[sires[place]] += 0.5 * mine
            if theirs:
                total += mine * theirs * _new(f, dams[place], sires[place])
        if theirs:
            to_other[dams[place]] += 0.5 * theirs
            to_other[sires[place]] += 0.5 * theirs
    return total


def _new(f: Sequence[float], dam: int, sire: int) -> float:
    """Half the share of an animal's variance of genes that does not come from known parents."""
    of_dam = 0.0 if dam == UNKNOWN else 0.25 * (1 + f[dam])
    of_sire = 0.0 if sire == UNKNOWN else 0.25 * (1 + f[sire])
    return 0.5 * (1 - of_dam - of_sire)
