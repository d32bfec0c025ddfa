"""What young of a pair prove of one of them: does it carry an allele?

Young share the genotypes of their parents, so that each further one is weighed with those before.
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from typing import NamedTuple

from warmside.plugins.genes.inheritance.facts import Id
from warmside.plugins.genes.inheritance.loci import NORMAL
from warmside.plugins.genes.inheritance.model import Model


class ParentWay(NamedTuple):
    """Genotypes that the pair may have: the chance, whether the one asked about carries the allele,
    and the share of its young that show it."""

    chance: float
    carries: bool
    shows: float


def parent_ways(model: Model, animal: Id, partner: Id, locus: str, allele: str) -> list[ParentWay]:
    """All that the pair may be at a locus; the model was made with the two together, in this order.

    Only whether the allele shows is told of young, not their sex.
    """
    number, at = next(
        (n, at)
        for n, group in enumerate(model.family.groups)
        for at, known in enumerate(group.loci)
        if known.name == locus
    )
    group = model.family.groups[number]
    joint = model.states(number, animal, partner)
    found: dict[tuple[bool, float], float] = {}
    for one, other in zip(*joint.nonzero(), strict=True):
        carries = allele in group.genotype(int(one), at)
        shown = 0.0
        for h1, p1 in group.gametes(int(one)).items():
            for h2, p2 in group.gametes(int(other)).items():
                if (h1, h2) in group.place:
                    made = group.genotype(group.place[h1, h2], at)
                    shows = allele in made and group.loci[at].look(made) != NORMAL
                    shown += p1 * p2 * shows
        key = (carries, round(shown, 12))
        found[key] = found.get(key, 0.0) + float(joint[one, other])
    return [ParentWay(chance, *key) for key, chance in found.items()]


def carries(ways: Sequence[ParentWay], normal: int = 0, showing: int = 0) -> float | None:
    """The chance that it carries the allele after so many further young that do not show it, and
    that do; None where there cannot have been such young."""
    weights = [w.chance * (1 - w.shows) ** normal * w.shows**showing for w in ways]
    total = math.fsum(weights)
    if not total:
        return None
    return math.fsum(x for x, w in zip(weights, ways, strict=True) if w.carries) / total


def any_shows(ways: Sequence[ParentWay], young: int) -> float:
    """The chance that at least one of so many young shows it."""
    return math.fsum(w.chance * (1 - (1 - w.shows) ** young) for w in ways)


def lowest(ways: Sequence[ParentWay]) -> float:
    """What the doubt falls to at best, however many young do not show it."""
    silent = [w for w in ways if w.shows == min(v.shows for v in ways)]
    return math.fsum(w.chance for w in silent if w.carries) / math.fsum(w.chance for w in silent)


def needed(ways: Sequence[ParentWay], below: float, most: int = 500) -> int | None:
    """How many young that do not show it leave it less likely than `below`; None for never."""
    return next((n for n in range(most + 1) if _is_below(carries(ways, n), below)), None)


def _is_below(chance: float | None, below: float) -> bool:
    return chance is not None and chance < below


def after_each(ways: Sequence[ParentWay], counts: Sequence[int]) -> Iterator[tuple[int, float]]:
    """The chance that it carries it after so many young that do not show it, where there can be."""
    for count in counts:
        if (chance := carries(ways, count)) is not None:
            yield count, chance
