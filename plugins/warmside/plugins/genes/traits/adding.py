"""A trait that the keeper adds to the catalogue of a species, and what must be true of it."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

from msgspec import Struct

from warmside.api import BadInput, NotFound
from warmside.plugins.genes.inheritance.loci import Shows
from warmside.plugins.genes.traits.catalogue import Catalogue, Trait, check_recombination

LINKED = ("", "sex", "near sex")


class Link(Struct, frozen=True):
    """What the trait is inherited with: the sex or a locus, and the chance of crossing over."""

    linked: str = ""
    follows: str = ""
    recombination: float | None = None


class OwnTrait(Struct, frozen=True):
    """A trait as the keeper says it."""

    name: str
    shows: Shows
    locus: str
    two_copies: str
    link: Link
    welfare: str
    source: str

    def row(self, species: str) -> dict[str, Any]:
        """The row of the table, of a species by its scientific name."""
        return {
            "species": species,
            "name": self.name,
            "locus": self.locus,
            "shows": self.shows.value,
            "two_copies": self.two_copies,
            "linked": self.link.linked,
            "follows": self.link.follows,
            "recombination": self.link.recombination,
            "welfare": self.welfare,
            "source": self.source,
        }


def check_new(new: OwnTrait, known: Catalogue, own: Sequence[Trait]) -> None:
    """Raise BadInput or NotFound where the trait cannot be added; `own` were added before."""
    if not new.name.strip():
        raise BadInput("name the trait")
    _check_link(new.link)
    if any(t.name.casefold() == new.name.casefold() for t in own):
        raise BadInput(f"{new.name} is there already; drop it first: warmside genes drop")
    if new.link.follows and new.link.follows not in known.loci:
        raise NotFound(f"{known.species} has no locus {new.link.follows!r}")


def _check_link(link: Link) -> None:
    if link.linked not in LINKED:
        raise BadInput(f'--linked is "sex" or "near sex", not {link.linked!r}')
    if link.recombination is not None:
        check_recombination(link.recombination)
    if (link.linked == "near sex" or link.follows) and link.recombination is None:
        raise BadInput("say how often it crosses over: --recombination 0.05")
