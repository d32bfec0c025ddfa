"""Who is whose young, and what is known of an animal at a locus."""

from __future__ import annotations

from collections.abc import Hashable, Mapping
from dataclasses import dataclass, field

from warmside.plugins.genes.inheritance.loci import Genotype, Locus

Id = Hashable


@dataclass(frozen=True)
class Candidates:
    """Who may be one parent, each with its share of probability; what is left is a stranger.

    Young that share `together` have the same parent, whichever it is: the sire of a clutch.
    """

    shares: Mapping[Id, float] = field(default_factory=dict)
    together: Hashable | None = None


@dataclass(frozen=True)
class Member:
    """An animal of the family; `sex` is female, male or unknown."""

    id: Id
    sex: str = "unknown"
    dam: Candidates = Candidates()
    sire: Candidates = Candidates()

    @property
    def is_founder(self) -> bool:
        """Neither parent is known."""
        return not self.dam.shares and not self.sire.shares


@dataclass(frozen=True)
class Fact:
    """What is known of an animal at a locus: the genotypes that it leaves possible.

    `words` say it, `source` how it is known: seen, tested, stated, proven.
    """

    animal: Id
    locus: str
    possible: frozenset[Genotype]
    words: str
    source: str = "seen"


@dataclass(frozen=True)
class Prior:
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
