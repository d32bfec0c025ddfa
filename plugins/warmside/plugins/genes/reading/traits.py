"""The traits of a species: those that ship, and those that the keeper added."""

from __future__ import annotations

from warmside.api import Book, Mark, Source, Species
from warmside.plugins.genes.inheritance.loci import Shows
from warmside.plugins.genes.traits.catalogue import Catalogue, Trait
from warmside.plugins.genes.traits.shipped import shipped_pairs, shipped_traits

OWN = (
    "SELECT name, locus, shows, two_copies, linked, follows, recombination, welfare, source "
    "FROM genes_trait WHERE species = ? ORDER BY name"
)


def catalogue(book: Book, species: Species) -> Catalogue:
    """All traits of a species; one that the keeper added goes before the shipped one."""
    make = lambda: _catalogue(book, species)  # noqa: E731
    return book.once(("genes", "catalogue", species.id), make)


def _catalogue(book: Book, species: Species) -> Catalogue:
    own = own_traits(book, species.scientific)
    named = {t.name.casefold() for t in own}
    rest = [t for t in shipped_traits(species.scientific) if t.name.casefold() not in named]
    return Catalogue(
        species.scientific,
        (*rest, *own),
        shipped_pairs(species.scientific),
        species.sex_system,
    )


def own_traits(book: Book, species: str) -> tuple[Trait, ...]:
    """The traits that the keeper added to a species, by its scientific name."""
    return tuple(
        Trait(
            locus,
            name,
            Shows(shows),
            Source(source or "the keeper", Mark.KEEPERS_OWN),
            two_copies=two,
            linked=linked,
            follows=follows,
            recombination=chance,
            welfare=welfare,
            welfare_source=Source(source or "the keeper", Mark.KEEPERS_OWN) if welfare else None,
        )
        for name, locus, shows, two, linked, follows, chance, welfare, source in book.rows(
            OWN, (species,)
        )
    )
