"""Loci that are inherited together: on one chromosome with known linkage, or with the sex.

A group's states are the unordered pairs of haplotypes that an animal can have. Where the group
hangs together with the sex, the first part of a haplotype is the sex chromosome; the chromosome
that only one sex has may lack the loci (then they are absent on it) or carry them near the place
that decides the sex.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from enum import Enum
from functools import cached_property
from itertools import combinations_with_replacement, product

from msgspec import Struct

from warmside.plugins.genes.inheritance.loci import ABSENT, Genotype, Locus, genotype

Haplotype = tuple[str, ...]


class SexChromosomes(Enum):
    """The two chromosomes: that of both sexes, that of one, and the sex which has both kinds."""

    XY = ("X", "Y", "male")
    ZW = ("Z", "W", "female")

    @property
    def shared(self) -> str:
        """X or Z."""
        return str(self.value[0])

    @property
    def single(self) -> str:
        """Y or W."""
        return str(self.value[1])

    def sex(self, one: str, other: str) -> str:
        """The sex of an animal with two such chromosomes."""
        mixed = str(self.value[2])
        same = "female" if mixed == "male" else "male"
        return mixed if one != other else same


class Group(Struct, frozen=True, dict=True):
    """Loci in their order on the chromosome.

    `recombination` has a chance between 0 and 1/2 for each step from a locus to the next; with
    `chromosomes` also the first, from the place that decides the sex. `on_single` says whether
    the chromosome of one sex alone carries the loci too.
    """

    loci: tuple[Locus, ...]
    recombination: tuple[float, ...] = ()
    chromosomes: SexChromosomes | None = None
    on_single: bool = False

    @cached_property
    def haplotypes(self) -> tuple[Haplotype, ...]:
        """What one parent can hand on."""
        alleles = list(product(*(locus.names for locus in self.loci)))
        if self.chromosomes is None:
            return tuple(alleles)
        shared, single = self.chromosomes.shared, self.chromosomes.single
        alone = alleles if self.on_single else [(ABSENT,) * len(self.loci)]
        return tuple([(shared, *a) for a in alleles] + [(single, *a) for a in alone])

    @cached_property
    def states(self) -> tuple[tuple[int, int], ...]:
        """Pairs of haplotypes, by their places in `haplotypes`, that an animal can have."""
        pairs = combinations_with_replacement(range(len(self.haplotypes)), 2)
        return tuple(pair for pair in pairs if self._can_live(*pair))

    def _can_live(self, one: int, other: int) -> bool:
        if self.chromosomes is None:
            return True
        single = self.chromosomes.single
        return not self.haplotypes[one][0] == self.haplotypes[other][0] == single

    @cached_property
    def place(self) -> Mapping[tuple[int, int], int]:
        """The place of each state, by its haplotypes in either order."""
        both = {pair: n for n, pair in enumerate(self.states)}
        return both | {(b, a): n for (a, b), n in both.items()}

    def sex(self, state: int) -> str | None:
        """The sex that a state means; None where the group is not linked with it."""
        if self.chromosomes is None:
            return None
        one, other = (self.haplotypes[h][0] for h in self.states[state])
        return self.chromosomes.sex(one, other)

    def genotype(self, state: int, locus: int) -> Genotype:
        """The alleles of a state at the locus of that place in `loci`."""
        at = locus + (self.chromosomes is not None)
        one, other = self.states[state]
        return genotype(self.haplotypes[one][at], self.haplotypes[other][at])

    def phases(self, state: int) -> int:
        """In how many ways the same genotypes can lie on two chromosomes, this state one of them.

        Two chromosomes of which one lacks the loci, or that differ at one place only, can lie in
        one way.
        """
        one, other = (self.haplotypes[h] for h in self.states[state])
        if ABSENT in one or ABSENT in other:
            return 1
        differing = sum(a != b for a, b in zip(one, other, strict=True))
        return 1 << max(0, differing - 1)

    def gametes(self, state: int) -> dict[int, float]:
        """The chance of each haplotype in what an animal of that state hands on."""
        one, other = (self.haplotypes[h] for h in self.states[state])
        steps = self._steps(one, other)
        chances: dict[int, float] = {}
        for strands, chance in _crossings(steps):
            made = tuple((one, other)[s][n] for n, s in enumerate(strands))
            at = self._number[made]
            chances[at] = chances.get(at, 0.0) + chance
        return chances

    @cached_property
    def _number(self) -> Mapping[Haplotype, int]:
        return {haplotype: n for n, haplotype in enumerate(self.haplotypes)}

    def _steps(self, one: Haplotype, other: Haplotype) -> tuple[float, ...]:
        """Nothing crosses over to a chromosome that lacks the loci."""
        if ABSENT in one or ABSENT in other:
            return (0.0,) * (len(one) - 1)
        if self.chromosomes is not None and not self.on_single:
            return (0.0, *self.recombination)
        return self.recombination


def _crossings(steps: tuple[float, ...]) -> Iterator[tuple[tuple[int, ...], float]]:
    """Which of two chromosomes each place is taken from, with its chance (no interference)."""
    for strands in product((0, 1), repeat=len(steps) + 1):
        chance = 0.5
        for n, step in enumerate(steps):
            chance *= step if strands[n] != strands[n + 1] else 1 - step
        if chance:
            yield strands, chance
