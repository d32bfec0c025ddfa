"""The traits of a species: loci and alleles, with what is said of each and by whom."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from functools import cached_property
from itertools import groupby

from msgspec import Struct

from warmside.api import BadInput, NotFound, Source, near_miss
from warmside.plugins.genes.inheritance.group import Group, SexChromosomes
from warmside.plugins.genes.inheritance.loci import Allele, Genotype, Locus, Shows, genotype

CHROMOSOMES = {"XX/XY": SexChromosomes.XY, "ZZ/ZW": SexChromosomes.ZW}
"""By the sex system of a species; a species whose sex heat decides has none."""


class Trait(Struct, frozen=True):
    """An allele as the trade knows it.

    `linked` says that it is inherited with the sex: "sex" where the chromosome of one sex alone
    lacks it, "near sex" where it lies near the place that decides the sex on both. `follows` is a
    locus on the same chromosome; `recombination` the chance of crossing over in between.
    `welfare` is what harm is told of, empty where none is; with `harms_twice` of two copies alone.
    """

    locus: str
    name: str
    shows: Shows
    source: Source
    also: tuple[str, ...] = ()
    one_copy: str = ""
    two_copies: str = ""
    linked: str = ""
    follows: str = ""
    recombination: float | None = None
    lethal_twice: bool = False
    harms_twice: bool = False
    welfare: str = ""
    welfare_source: Source | None = None
    note: str = ""

    @property
    def allele(self) -> Allele:
        """As it is inherited."""
        return Allele(self.name, self.shows, self.one_copy, self.two_copies)


class Pair(Struct, frozen=True):
    """How two different alleles of one locus look together."""

    locus: str
    alleles: Genotype
    look: str
    source: Source


class Catalogue(Struct, frozen=True, dict=True):
    """The traits of one species; `sex_system` as the core has it."""

    species: str
    traits: tuple[Trait, ...]
    pairs: tuple[Pair, ...] = ()
    sex_system: str = "unknown"

    @cached_property
    def names(self) -> Mapping[str, Trait]:
        """The traits by all their names, in small letters."""
        return {word.casefold(): t for t in self.traits for word in (*t.also, t.name)}

    def trait(self, word: str) -> Trait:
        """The trait of that name, or of another name of it; NotFound says what is near."""
        found = self.names.get(" ".join(word.casefold().split()))
        if found is None:
            known = [name for t in self.traits for name in (t.name, *t.also)]
            raise NotFound(
                f"no trait {word!r} is known of {self.species}{near_miss(word, known)}; list them: "
                f'warmside genes traits "{self.species}", or add it: warmside genes add'
            )
        return found

    @cached_property
    def loci(self) -> Mapping[str, Locus]:
        """The loci by name."""
        by_locus = groupby(sorted(self.traits, key=lambda t: t.locus), lambda t: t.locus)
        return {name: self._locus(name, list(traits)) for name, traits in by_locus}

    def _locus(self, name: str, traits: Sequence[Trait]) -> Locus:
        pairs = {p.alleles: p.look for p in self.pairs if p.locus == name}
        return Locus(name, tuple(t.allele for t in traits), pairs)

    def groups(self, wanted: Iterable[str]) -> tuple[Group, ...]:
        """The groups in which these loci are inherited, in the order in which they are named."""
        made: list[Group] = []
        waiting = list(dict.fromkeys(wanted))
        while waiting:
            chain = self._chain(waiting[0], waiting)
            waiting = [name for name in waiting if name not in chain]
            made.append(self._group(chain))
        return tuple(made)

    def _chain(self, name: str, wanted: Sequence[str]) -> list[str]:
        """The loci among those wanted that lie on one chromosome with this one, in order."""
        near = {t.locus: t.follows for t in self.traits if t.follows}
        start = name
        while near.get(start) in wanted:
            start = near[start]
        chain = [start]
        while (after := next((a for a, b in near.items() if b == chain[-1]), "")) in wanted:
            chain.append(after)
        return chain

    def _group(self, chain: Sequence[str]) -> Group:
        firsts = [next(t for t in self.traits if t.locus == name) for name in chain]
        steps = tuple(_step(t) for t in firsts[1:])
        linked = next((t.linked for t in firsts if t.linked), "")
        chromosomes = CHROMOSOMES.get(self.sex_system) if linked else None
        if linked and chromosomes is None:
            raise BadInput(
                f"{firsts[0].name} is inherited with the sex, but the sex system of {self.species} "
                "is not known; set it: warmside species add, or leave the trait out"
            )
        if linked == "near sex":
            steps = (_step(firsts[0]), *steps)
        loci = tuple(self.loci[name] for name in chain)
        return Group(loci, steps, chromosomes, on_single=linked == "near sex")


def _step(trait: Trait) -> float:
    return 0.5 if trait.recombination is None else trait.recombination


def check_recombination(chance: float) -> float:
    """A chance of crossing over; BadInput unless it is between 0 and 0.5."""
    if not 0 <= chance <= 0.5:
        raise BadInput(
            f"recombination is a chance between 0 and 0.5, not {chance:g}; 0.5 is not linked"
        )
    return chance


def sorted_pair(alleles: Sequence[str]) -> Genotype:
    """Two alleles as a genotype; BadInput unless there are two."""
    if len(alleles) != 2:
        raise BadInput(f"a pair has two alleles, not {len(alleles)}")
    return genotype(*alleles)
