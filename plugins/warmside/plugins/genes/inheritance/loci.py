"""Loci, their alleles, and what an animal with two given alleles looks like."""

from __future__ import annotations

from collections.abc import Mapping
from enum import StrEnum
from itertools import combinations_with_replacement

from msgspec import Struct

WILD = "+"
"""The allele of the wild animal."""
ABSENT = "-"
"""What stands for an allele on the sex chromosome that has no such locus."""
NORMAL = "normal"

Genotype = tuple[str, str]
"""Two alleles, sorted, so that each pair is written in one way."""


class Shows(StrEnum):
    """What one copy of an allele beside a wild one does."""

    RECESSIVE = "recessive"
    INCOMPLETE = "incomplete dominant"
    DOMINANT = "dominant"


class Allele(Struct, frozen=True):
    """An allele: how it shows, and the words for one copy and for two."""

    name: str
    shows: Shows
    one_copy: str = ""
    two_copies: str = ""

    @property
    def one(self) -> str:
        """The look of one copy beside a wild allele."""
        return NORMAL if self.shows is Shows.RECESSIVE else self.one_copy or self.name

    @property
    def two(self) -> str:
        """The look of two copies."""
        if self.shows is Shows.INCOMPLETE:
            return self.two_copies or f"two copies of {self.name}"
        return self.two_copies or self.name


class Locus(Struct, frozen=True):
    """A place on a chromosome with its alleles other than the wild one.

    `pairs` gives the look of two different alleles that are both not wild.
    """

    name: str
    alleles: tuple[Allele, ...]
    pairs: Mapping[Genotype, str] = {}

    @property
    def names(self) -> tuple[str, ...]:
        """The wild allele and the others."""
        return (WILD, *(a.name for a in self.alleles))

    def genotypes(self) -> tuple[Genotype, ...]:
        """All pairs of alleles."""
        return tuple(genotype(*pair) for pair in combinations_with_replacement(self.names, 2))

    def look(self, pair: Genotype) -> str:
        """What shows of two alleles; one that is absent lets the other show as two would."""
        present = [name for name in pair if name != ABSENT] or [WILD]
        first, last = (present * 2)[:2]
        if first == last:
            return NORMAL if first == WILD else self.allele(first).two
        if WILD in (first, last):
            return self.allele(last if first == WILD else first).one
        return self.pairs.get(genotype(first, last)) or self._between(first, last)

    def showing(self, look: str) -> frozenset[Genotype]:
        """The genotypes that look so, those with one chromosome that lacks the locus included."""
        single = [genotype(name, ABSENT) for name in self.names]
        return frozenset(g for g in (*self.genotypes(), *single) if self.look(g) == look)

    def allele(self, name: str) -> Allele:
        """The allele of that name; KeyError where there is none."""
        for allele in self.alleles:
            if allele.name == name:
                return allele
        raise KeyError(name)

    def looks(self) -> tuple[str, ...]:
        """All looks, normal first, each once."""
        return tuple(dict.fromkeys(self.look(pair) for pair in self.genotypes()))

    def _between(self, one: str, other: str) -> str:
        """Two recessive alleles of one locus do not make up for each other."""
        first, second = sorted((one, other))
        return f"{first} and {second}"


def genotype(one: str, other: str) -> Genotype:
    """A pair of alleles as it is written: wild first, else in the order of the alphabet."""
    first, second = sorted((one, other))
    return first, second
