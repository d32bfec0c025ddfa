"""`warmside genes traits`, `add` and `drop`: the traits of a species."""

from __future__ import annotations

from typing import Annotated

import typer

from warmside.api import (
    Answer,
    Column,
    NotFound,
    Part,
    Refused,
    Session,
    Table,
    Tone,
    paragraphs,
    said,
    session_of,
)
from warmside.plugins.genes.inheritance.loci import Shows
from warmside.plugins.genes.reading.traits import catalogue, own_traits
from warmside.plugins.genes.tables import trait as trait_table
from warmside.plugins.genes.traits.adding import Link, OwnTrait, check_new
from warmside.plugins.genes.traits.catalogue import Catalogue, Trait
from warmside.plugins.genes.traits.shipped import shipped_catalogue, shipped_species

UNDO = "warmside undo (take it back)"
SpeciesName = Annotated[str, typer.Argument(help="Scientific or common name.")]
COLUMNS = (
    Column("name", "trait"),
    Column("shows", "shows"),
    Column("locus", "locus"),
    Column("two_copies", "two copies"),
    Column("source", "source", below=True),
    Column("told", "told of", below=True),
)


def traits(
    context: typer.Context,
    species: Annotated[str | None, typer.Argument(help="Scientific or common name.")] = None,
) -> Answer:
    """The traits of a species with who says so, the keeper's own too; without a name the species.

    Without a collection those that ship.
    """
    if species is None:
        rows = tuple((common, name) for name, common in shipped_species().items())
        columns = (Column("common", "species"), Column("scientific", "scientific name"))
        return Answer("Species whose traits ship", (Table("species", columns, rows),))
    found = _catalogue(session_of(context), species)
    return Answer(f"Traits of {found.species}", (traits_table(found), *_linkage()))


def _catalogue(session: Session, species: str) -> Catalogue:
    """The traits of the collection, if there is one that uses the plugin; else those that ship."""
    try:
        with session.read() as book:
            found = catalogue(book, book.species_named(species))
    except (NotFound, Refused):
        return shipped_catalogue(species)
    return found if found.traits else shipped_catalogue(species)


def _linkage() -> tuple[Part, ...]:
    return paragraphs(
        "Loci count as not linked unless it says otherwise (common practice, no source).",
        tone=Tone.PLAIN,
    )


def traits_table(found: Catalogue) -> Table:
    """A row a trait."""
    return Table("traits", COLUMNS, tuple(map(_row, sorted(found.traits, key=_by_name))))


def _by_name(trait: Trait) -> str:
    return trait.name.casefold()


def _row(trait: Trait) -> tuple[str | None, ...]:
    return (
        ", ".join((trait.name, *trait.also)),
        trait.shows.value,
        trait.locus,
        trait.two_copies or None,
        f"{trait.source.text} ({trait.source.mark.value})",
        "; ".join(filter(None, (trait.welfare, trait.note))) or None,
    )


def add(
    context: typer.Context,
    species: SpeciesName,
    name: Annotated[str, typer.Argument(help="What the trait is called.")],
    shows: Annotated[Shows, typer.Option(help="How one copy shows.")],
    locus: Annotated[
        str, typer.Option(help="Locus it lies on, of other alleles; else its own.")
    ] = "",
    two_copies: Annotated[str, typer.Option(help="What two copies are called.")] = "",
    linked: Annotated[
        str, typer.Option(help='"sex" or "near sex", where it goes with the sex.')
    ] = "",
    follows: Annotated[str, typer.Option(help="A locus on the same chromosome.")] = "",
    recombination: Annotated[
        float | None, typer.Option(help="Chance of crossing over in between, 0 to 0.5.")
    ] = None,
    welfare: Annotated[str, typer.Option(help="Harm that is told of.")] = "",
    source: Annotated[str, typer.Option(help="Who says so.")] = "",
) -> Answer:
    """Add a trait of a species, or say one otherwise than the catalogue that ships."""
    link = Link(linked, follows, recombination)
    new = OwnTrait(name, shows, locus or name, two_copies, link, welfare, source)
    session = session_of(context)
    with session.step(f"trait {name} added") as writer:
        kept = writer.book.species_named(species)
        own = own_traits(writer.book, kept.scientific)
        check_new(new, catalogue(writer.book, kept), own)
        writer.insert(trait_table, **new.row(kept.scientific))
        writer.say(f"trait {name} of {kept.scientific}")
    return said(f"{name} is a trait of {kept.scientific} now", hints=[UNDO])


def drop(context: typer.Context, species: SpeciesName, name: str) -> Answer:
    """Take out a trait that was added; one that ships is then as it ships."""
    session = session_of(context)
    with session.step(f"trait {name} dropped") as writer:
        kept = writer.book.species_named(species)
        if not any(t.name == name for t in own_traits(writer.book, kept.scientific)):
            raise NotFound(f"{name} is no trait that was added to {kept.scientific}")
        writer.remove(trait_table, {"species": kept.scientific, "name": name})
        writer.say(f"trait {name} of {kept.scientific} dropped")
    return said(f"{name} is no longer a trait that was added", hints=[UNDO])
