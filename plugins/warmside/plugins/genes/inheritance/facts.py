"""Who is whose young, and what is known of an animal at a locus."""

from __future__ import annotations

from collections.abc import Hashable, Mapping

from msgspec import Struct

from warmside.plugins.genes.inheritance.loci import Genotype, Locus

Id = Hashable


class Candidates(Struct, frozen=True):
    """Who may be one parent, each with its share of probability; what is left is a stranger.

    Young that share `together` have the same parent, whichever it is: the sire of a clutch.
    """

    shares: Mapping[Id, float] = {}
    together: Hashable | None = None


class Member(Struct, frozen=True):
    """An animal of the family; `sex` is female, male or unknown."""

    id: Id
    sex: str = "unknown"
    dam: Candidates = Candidates()
    sire: Candidates = Candidates()

    @property
    def is_founder(self) -> bool:
        """Neither parent is known."""
        return not self.dam.shares and not self.sire.shares


class Fact(Struct, frozen=True):
    """What is known of an animal at a locus: the genotypes that it leaves possible.

    `words` say it, `source` how it is known: seen, tested, stated, proven.
    """

    animal: Id
    locus: str
    possible: frozenset[Genotype]
    words: str
    source: str = "seen"


class Prior(Struct, frozen=True):
    """The chances of the genotypes of a founder at a locus, as stated; they sum to 1."""

    animal: Id
    locus: str
    chances: Mapping[Genotype, float]
    words: str = ""


def looks(animal: Id, locus: Locus, look: str) -> Fact:
    """The fact that an animal looks so; no genotype is possible for a look the locus cannot give.

    Both copies and the one copy of a sex chromosome count.
    """
    return Fact(animal, locus.name, locus.showing(look), f"{locus.name}: {look}")
