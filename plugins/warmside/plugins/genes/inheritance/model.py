"""The probabilities of all genotypes of a family, given all that is known of any of it.

The family is a Bayesian network: founders by their priors, young by Mendel's rules (with
recombination inside a group), uncertain parents as a choice that all loci share, facts as what
remains possible. Nothing is sampled: see exact/network.py.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Mapping, Sequence
from typing import TYPE_CHECKING

from msgspec import Struct

from warmside.api import BadInput
from warmside.plugins.genes.exact.network import Beliefs, Network, beliefs
from warmside.plugins.genes.inheritance.facts import Candidates, Fact, Id, Member, Prior
from warmside.plugins.genes.inheritance.group import Group
from warmside.plugins.genes.inheritance.loci import ABSENT, WILD, Genotype

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import NDArray

    Cells = NDArray[np.float64]

ROLES = (("dam", "female"), ("sire", "male"))
MOST_JOINED = 2**18
"""Cells of the largest table that joins uncertain parents with a pair."""
LEFT = 1e-9
"""What shares of probability may fail to reach 1 by rounding."""


class Family(Struct, frozen=True):
    """Animals, the groups of loci that are asked about, and what is known.

    `frequencies` has the share of each allele among unrelated animals, by locus and allele; the
    rest is wild. A prior of one animal goes before them.
    """

    members: tuple[Member, ...]
    groups: tuple[Group, ...]
    facts: tuple[Fact, ...] = ()
    priors: tuple[Prior, ...] = ()
    frequencies: Mapping[str, Mapping[str, float]] = {}

    @property
    def is_sure(self) -> bool:
        """Whether it is certain of each animal who its parents are, strangers among them."""
        return all(len(_names(c)) == 1 for m in self.members for c in (m.dam, m.sire))


class Model:
    """The network of a family, and its answers.

    Raises Impossible (when asked first) where the facts cannot all be true.
    """

    def __init__(self, family: Family, together: Iterable[tuple[Id, ...]] = ()) -> None:
        self.family = family
        self._network = Network()
        self._parts = [_Part(self._network, family, group) for group in family.groups]
        self._choices: dict[object, int] = {}
        for part in self._parts:
            part.build(self._choices)
        self._together = list(together)
        self._shared = self._choices_that_join()
        self._beliefs: Beliefs | None = None

    @property
    def beliefs(self) -> Beliefs:
        """All probabilities, reckoned once."""
        if self._beliefs is None:
            self._beliefs = self._reckoned()
        return self._beliefs

    @property
    def is_joint(self) -> bool:
        """Whether chances of several groups together are exact, where a parent is uncertain too."""
        _ = self.beliefs
        return bool(self._shared) or self.family.is_sure or len(self.family.groups) < 2

    def _reckoned(self) -> Beliefs:
        """With uncertain parents beside the pairs, or without them where that is too much."""
        try:
            return beliefs(self._with_pairs())
        except BadInput:
            if not self._shared:
                raise
            self._shared = ()
            return beliefs(self._with_pairs())

    def _choices_that_join(self) -> tuple[int, ...]:
        """The uncertain parents, which alone join the groups; none where there are too many."""
        if not self._together or len(self.family.groups) < 2:
            return ()
        sizes = [self._network.sizes[c] for c in self._choices.values()]
        largest = max(len(group.states) for group in self.family.groups)
        fits = math.prod(sizes) * largest**2 <= MOST_JOINED
        return tuple(self._choices.values()) if fits else ()

    def _with_pairs(self) -> Network:
        """The network, in which the animals of each pair stand together in a table a group."""
        made = Network()
        made.sizes, made.factors = self._network.sizes, list(self._network.factors)
        for animals in self._together:
            self._join(made, animals)
        return made

    def genotypes(self, animal: Id, locus: str) -> dict[Genotype, float]:
        """The chance of each genotype of an animal at a locus."""
        part, at = self._where(locus)
        chances: dict[Genotype, float] = {}
        for state, chance in enumerate(self.beliefs.of(part.animal[animal])):
            pair = part.group.genotype(state, at)
            chances[pair] = chances.get(pair, 0.0) + float(chance)
        return chances

    def states(self, group: int, *animals: Id) -> Cells:
        """The joint chances of the states of animals in a group, an axis each.

        Of several animals only where they were named together when the model was made.
        """
        return self.states_by_choice(group, *animals).sum(axis=0)  # type: ignore[no-any-return]

    def states_by_choice(self, group: int, *animals: Id) -> Cells:
        """As `states`, with a first axis: who the uncertain parents are, the same in all groups.

        Given who they are, the groups are independent.
        """
        beliefs, part = self.beliefs, self._parts[group]
        cells = beliefs.of(*self._shared, *(part.animal[a] for a in animals))
        return cells.reshape(-1, *cells.shape[len(self._shared) :])

    def parents(self, animal: Id, role: str) -> dict[Id | None, float]:
        """The chance of each candidate to be the parent; None is a stranger."""
        member = next(m for m in self.family.members if m.id == animal)
        candidates = member.dam if role == "dam" else member.sire
        names = _names(candidates)
        if len(names) < 2:
            return dict.fromkeys(names, 1.0)
        chances = self.beliefs.of(self._choices[_choice_key(member, role, candidates)])
        return {name: float(c) for name, c in zip(names, chances, strict=True)}

    def _where(self, locus: str) -> tuple[_Part, int]:
        for part in self._parts:
            for at, known in enumerate(part.group.loci):
                if known.name == locus:
                    return part, at
        raise KeyError(locus)

    def _join(self, network: Network, animals: Sequence[Id]) -> None:
        """Make sure that the animals stand together in a table of each group."""
        import numpy as np

        for part in self._parts:
            variables = [*self._shared, *(part.animal[a] for a in animals)]
            network.join(variables, np.ones([network.sizes[v] for v in variables]))


class _Part:
    """One group of loci in the network."""

    def __init__(self, network: Network, family: Family, group: Group) -> None:
        self.network, self.family, self.group = network, family, group
        self.animal = {m.id: network.variable(len(group.states)) for m in family.members}
        self._handing_on = _handing_on(group)
        self._makes = _makes(group)

    def build(self, choices: dict[object, int]) -> None:
        """Add the tables of all animals; `choices` are the uncertain parents, shared by groups."""
        for member in self.family.members:
            if member.is_founder:
                self.network.join([self.animal[member.id]], self._founder(member.id, member.sex))
            else:
                self._young(member, choices)
                self.network.join([self.animal[member.id]], self._of_sex(member.sex))
        for fact in self.family.facts:
            self._fact(fact)

    def _young(self, member: Member, choices: dict[object, int]) -> None:
        gametes = [self._gamete(member, role, sex, choices) for role, sex in ROLES]
        self.network.join([*gametes, self.animal[member.id]], self._makes)

    def _gamete(self, member: Member, role: str, sex: str, choices: dict[object, int]) -> int:
        """What a parent of the member handed on."""
        candidates = member.dam if role == "dam" else member.sire
        made = self.network.variable(len(self.group.haplotypes))
        names = _names(candidates)
        if names == [None]:
            self.network.join([made], self._founder(None, sex) @ self._handing_on)
        elif len(names) == 1:
            parent = self.animal[names[0]]
            self.network.join([parent, made], self._handing_on)
            self.network.join([parent], self._of_sex(sex))
        else:
            self._one_of(names, made, sex, self._choice(member, role, candidates, choices))
        return made

    def _choice(
        self, member: Member, role: str, candidates: Candidates, choices: dict[object, int]
    ) -> int:
        """Which of the candidates it is: one value for all groups, and for a clutch."""
        import numpy as np

        key = _choice_key(member, role, candidates)
        if key not in choices:
            shares = list(candidates.shares.values())
            left = 1 - sum(shares)
            chances = [*shares, left] if left > LEFT else shares
            choices[key] = self.network.variable(len(chances))
            self.network.join([choices[key]], np.array(chances) / sum(chances))
        return choices[key]

    def _one_of(self, names: Sequence[Id | None], made: int, sex: str, choice: int) -> None:
        """A table for each candidate, which says nothing unless it is the one."""
        import numpy as np

        for n, name in enumerate(names):
            if name is None:
                cells = np.ones((len(names), len(self.group.haplotypes)))
                cells[n] = self._founder(None, sex) @ self._handing_on
                self.network.join([choice, made], cells)
            else:
                whole = np.ones((len(names), *self._handing_on.shape))
                whole[n] = self._handing_on
                self.network.join([choice, self.animal[name], made], whole)

    def _founder(self, animal: Id | None, sex: str) -> Cells:
        """The chance of each state of an animal without known parents."""
        import numpy as np

        stated = {p.locus: p.chances for p in self.family.priors if p.animal == animal}
        cells = np.array([self._alike(state, stated) for state in range(len(self.group.states))])
        if self.group.chromosomes is None:
            return cells
        return cells * self._of_sex(sex) * (0.5 if sex == "unknown" else 1.0)

    def _alike(self, state: int, stated: Mapping[str, Mapping[Genotype, float]]) -> float:
        """The chance of a state among animals of its sex; all ways to lie are equally likely."""
        chance = 1.0 / self.group.phases(state)
        for at, locus in enumerate(self.group.loci):
            pair = self.group.genotype(state, at)
            if locus.name in stated and ABSENT not in pair:
                chance *= stated[locus.name].get(pair, 0.0)
            else:
                chance *= _random_pair(pair, self.family.frequencies.get(locus.name, {}))
        return chance

    def _of_sex(self, sex: str) -> Cells:
        import numpy as np

        fits = [sex == "unknown" or self.group.sex(s) in (None, sex) for s in self._all()]
        return np.array(fits, dtype=float)

    def _all(self) -> range:
        return range(len(self.group.states))

    def _fact(self, fact: Fact) -> None:
        import numpy as np

        for at, locus in enumerate(self.group.loci):
            if locus.name == fact.locus:
                fits = [self.group.genotype(s, at) in fact.possible for s in self._all()]
                self.network.join([self.animal[fact.animal]], np.array(fits, dtype=float))


def _names(candidates: Candidates) -> list[Id | None]:
    """The candidates, and None where a stranger may be it."""
    names: list[Id | None] = list(candidates.shares)
    return names if sum(candidates.shares.values()) > 1 - LEFT else [*names, None]


def _choice_key(member: Member, role: str, candidates: Candidates) -> object:
    if candidates.together is None:
        return (role, "young", member.id)
    shares = tuple(candidates.shares.items())
    return (role, "together", candidates.together, shares)


def _handing_on(group: Group) -> Cells:
    """By state: the chance of each haplotype that is handed on."""
    import numpy as np

    cells = np.zeros((len(group.states), len(group.haplotypes)))
    for state in range(len(group.states)):
        for haplotype, chance in group.gametes(state).items():
            cells[state, haplotype] = chance
    return cells


def _makes(group: Group) -> Cells:
    """By the haplotypes of dam and sire: the state that they make."""
    import numpy as np

    size = len(group.haplotypes)
    cells = np.zeros((size, size, len(group.states)))
    for pair, state in group.place.items():
        cells[(*pair, state)] = 1.0
    return cells


def _random_pair(pair: Genotype, frequencies: Mapping[str, float]) -> float:
    """Hardy-Weinberg; of a chromosome that stands alone the allele's own share."""
    one, other = (_share(name, frequencies) for name in pair)
    return one * other * (2.0 if pair[0] != pair[1] and ABSENT not in pair else 1.0)


def _share(name: str, frequencies: Mapping[str, float]) -> float:
    if name == ABSENT:
        return 1.0
    return 1 - sum(frequencies.values()) if name == WILD else frequencies.get(name, 0.0)
