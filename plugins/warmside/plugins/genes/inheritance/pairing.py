"""What two animals can produce: looks and genotypes of a young, and of a whole clutch.

Young of one pair share its unknown genotypes: chances of a clutch are reckoned for each pair of
genotypes that the parents may have and then weighted, never from the odds of one young alone.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Mapping
from itertools import product
from typing import TYPE_CHECKING, NamedTuple

from msgspec import Struct

from warmside.api import BadInput
from warmside.plugins.genes.inheritance.facts import Id
from warmside.plugins.genes.inheritance.group import Group
from warmside.plugins.genes.inheritance.model import Model

if TYPE_CHECKING:
    from warmside.plugins.genes.exact.network import Cells

Looks = tuple[str, ...]
"""The look at each locus in the order of the groups; behind a group's the sex, where it tells."""
Tell = Callable[[Group, int], Looks]
"""What is told of a state of a group: its looks, or its genotypes."""
MOST_WAYS = 200_000
"""Pairs of genotypes of the parents that are worked with at most."""


class Way(NamedTuple):
    """Genotypes that the parents may have, over all groups: its chance, and their young."""

    chance: float
    young: Mapping[Looks, float]


class Offspring(Struct, frozen=True):
    """All that a pair can produce, by the genotypes that the parents may have."""

    ways: tuple[Way, ...]

    def chances(self) -> dict[Looks, float]:
        """The chance of each look in one young, the likeliest first."""
        found: dict[Looks, float] = {}
        for chance, young in self.ways:
            for look, share in young.items():
                found[look] = found.get(look, 0.0) + chance * share
        return dict(sorted(found.items(), key=lambda item: (-item[1], item[0])))

    def at_least_one(self, look: Looks, young: int) -> float:
        """The chance that at least one of so many young looks so."""
        return math.fsum(w.chance * -_power(w.young.get(look, 0.0), young) for w in self.ways)

    def after(self, seen: Mapping[Looks, int]) -> Offspring:
        """What is to be expected when so many young of each look have been seen.

        Raises BadInput where the pair cannot have had them.
        """
        weights = [
            w.chance * math.prod(w.young.get(look, 0.0) ** n for look, n in seen.items())
            for w in self.ways
        ]
        if not (total := math.fsum(weights)):
            raise BadInput("this pair cannot have had young that look so")
        pairs = zip(weights, self.ways, strict=True)
        return Offspring(tuple(Way(c / total, w.young) for c, w in pairs if c))


def _power(share: float, young: int) -> float:
    """(1 - share) to the power of `young`, less 1, exact for small shares."""
    return -1.0 if share >= 1 else math.expm1(young * math.log1p(-share))


def looks(group: Group, state: int) -> Looks:
    """The look of a state at each locus, and the sex, where the group tells."""
    seen = (locus.look(group.genotype(state, at)) for at, locus in enumerate(group.loci))
    return (*seen, *filter(None, [group.sex(state)]))


def carried(group: Group, state: int) -> Looks:
    """The genotype of a state at each locus, written `+/piebald`, and the sex."""
    pairs = ("/".join(group.genotype(state, at)) for at in range(len(group.loci)))
    return (*pairs, *filter(None, [group.sex(state)]))


def offspring(model: Model, dam: Id, sire: Id, tell: Tell = looks) -> Offspring:
    """What dam and sire can produce; the model must have been made with them together.

    Groups are independent once it is given who the uncertain parents of the family are.
    """
    groups = model.family.groups
    each = [_of_group(model, n, g, (dam, sire), tell) for n, g in enumerate(groups)]
    if math.prod(map(len, each)) > MOST_WAYS:
        raise BadInput("too many genotypes are possible; ask for fewer traits at a time")
    choices = model.states_by_choice(0, dam, sire).sum(axis=(1, 2))
    return Offspring(tuple(_joined(ways, choices) for ways in product(*each)))


class GroupWay(NamedTuple):
    """As a Way, of one group: `shares` has its chance given each choice of uncertain parents."""

    shares: Cells
    young: Mapping[Looks, float]


def _of_group(
    model: Model, number: int, group: Group, parents: tuple[Id, Id], tell: Tell
) -> list[GroupWay]:
    import numpy as np

    joint = model.states_by_choice(number, *parents)
    choices = joint.sum(axis=(1, 2))
    alike: dict[tuple[tuple[Looks, float], ...], Cells] = {}
    for of_dam, of_sire in zip(*joint.sum(axis=0).nonzero(), strict=True):
        young = _young(group, int(of_dam), int(of_sire), tell)
        key = tuple(sorted(young.items()))
        chances = joint[:, of_dam, of_sire]
        alike[key] = alike[key] + chances if key in alike else chances
    return [
        GroupWay(np.divide(chances, choices, out=np.zeros_like(choices), where=choices > 0), young)
        for young, chances in ((dict(key), chances) for key, chances in alike.items())
    ]


def _young(group: Group, dam: int, sire: int, tell: Tell) -> dict[Looks, float]:
    found: dict[Looks, float] = {}
    for (h1, p1), (h2, p2) in product(group.gametes(dam).items(), group.gametes(sire).items()):
        told = tell(group, group.place[h1, h2])
        found[told] = found.get(told, 0.0) + p1 * p2
    return found


def _joined(ways: tuple[GroupWay, ...], choices: Cells) -> Way:
    """Groups, independent for each choice: chances multiply, looks stand one behind the other."""
    young: dict[Looks, float] = {(): 1.0}
    joint = choices
    for way in ways:
        joint = joint * way.shares
        young = {
            before + look: chance * share
            for before, chance in young.items()
            for look, share in way.young.items()
        }
    return Way(float(joint.sum()), young)
