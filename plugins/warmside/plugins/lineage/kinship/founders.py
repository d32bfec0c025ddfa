"""How many founders a group goes back to, and how alike it is.

Founder equivalents: 1 / sum of squared contributions (Lacy 1989, Zoo Biol 8:111-123). Mean kinship
counts each animal's kinship with all, itself included; gene diversity is 1 minus it (Lacy 1995,
Zoo Biol 14:565-578).
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import TYPE_CHECKING

from msgspec import Struct

from warmside.plugins.lineage.kinship.pair import kinship
from warmside.plugins.lineage.kinship.pedigree import UNKNOWN, Pedigree

if TYPE_CHECKING:
    from collections.abc import Hashable


class Group(Struct, frozen=True):
    """A group of animals; contributions by founder sum to 1.

    An unknown parent counts as a founder of its own; `unknown` is what all such give together.
    """

    contributions: Mapping[Hashable, float]
    unknown: float
    founder_equivalents: float
    mean_kinship: Mapping[Hashable, float]

    @property
    def mean(self) -> float:
        """Mean kinship over all pairs, each animal with itself included."""
        return sum(self.mean_kinship.values()) / len(self.mean_kinship)


def group(known: Pedigree, f: Sequence[float], members: Sequence[int]) -> Group:
    """The founders and the mean kinship of some animals of a pedigree."""
    shares, strangers = _contributions(known, members)
    squares = sum(s * s for s in (*shares.values(), *strangers))
    means = {
        known.ids[one]: sum(kinship(known, f, one, other) for other in members) / len(members)
        for one in members
    }
    return Group(shares, sum(strangers), 1 / squares, means)


def _contributions(
    known: Pedigree, members: Sequence[int]
) -> tuple[dict[Hashable, float], list[float]]:
    """What each founder gave to the group, and what each parent gave that is not known."""
    share = [0.0] * len(known.ids)
    for member in members:
        share[member] += 1 / len(members)
    founders: dict[Hashable, float] = {}
    strangers: list[float] = []
    for place in range(len(known.ids) - 1, -1, -1):
        if not share[place]:
            continue
        parents = known.parents(place)
        if parents == (UNKNOWN, UNKNOWN):
            founders[known.ids[place]] = share[place]
            continue
        for parent in parents:
            if parent == UNKNOWN:
                strangers.append(share[place] / 2)
            else:
                share[parent] += share[place] / 2
    return founders, strangers
