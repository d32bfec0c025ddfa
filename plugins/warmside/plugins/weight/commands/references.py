"""`warmside weight reference`: import, build, list, show, assign and drop references."""

from __future__ import annotations

from pathlib import Path
from typing import Annotated

import typer

from warmside.api import Answer, BadInput, Mark, Source, counted, said, session_of
from warmside.plugins.weight.commands import storing
from warmside.plugins.weight.commands.files import read_text
from warmside.plugins.weight.lms.reference_table import parse_reference
from warmside.plugins.weight.reading.references import held, named, references
from warmside.plugins.weight.telling.references import listed, shown

app = typer.Typer(help="Growth references: import, build, assign.", no_args_is_help=True)

Name = Annotated[str, typer.Argument(help="Name of the reference.")]
LIST = "warmside weight reference list"


@app.command("import")
def import_(
    context: typer.Context,
    file: Annotated[Path, typer.Argument(help="CSV: sex, age_days and l, m, s or p3, p50, p97 …")],
    name: Annotated[str, typer.Option(help="Its name here; the file's unless given.")] = "",
    species: Annotated[str, typer.Option(help="Species, where the file does not say.")] = "",
    source: Annotated[str, typer.Option(help="Source, where the file does not say.")] = "",
    licence: Annotated[str, typer.Option(help="Licence, where the file does not say.")] = "",
) -> Answer:
    """Keep a reference from a CSV file, with its source and licence."""
    text = read_text(file)
    session = session_of(context)
    with session.step("imported a reference") as writer:
        known = writer.book.species_named
        given = known(species).scientific if species else ""
        table = parse_reference(text, source=source, licence=licence)
        told = known(table.species).scientific if table.species else ""
        if given and told and given != told:
            raise BadInput(f"the reference is for {told}, not {given}; use one for it")
        if not (given or told):
            raise BadInput("the reference names no species; add '# species: ...' or give --species")
        table.check_origin()
        kept = storing.checked_name(writer, name or file.stem)
        storing.keep(writer, kept, storing.of_species(table, given or told), f"file {file.name}")
        writer.say(f"imported the reference {kept}")
    return said(
        f"kept the reference {kept} for {given or told}: {counted(len(table.curves), 'curve')}",
        hints=[f"warmside weight reference show {storing.shell(kept)}", LIST],
    )


@app.command("list")
def list_(context: typer.Context) -> Answer:
    """The references with species, curves, source and licence, and who is held to them."""
    with session_of(context).read() as book:
        mine = (held(book, book.animals[a]) for a in book.animals_here())
        return listed(references(book).values(), mine)


@app.command()
def show(
    context: typer.Context,
    name: Name,
    sex: Annotated[str, typer.Option(help="Only the curves of that sex.")] = "",
) -> Answer:
    """A reference as a table of centiles, with their uncertainty where it was built here."""
    with session_of(context).read() as book:
        return shown(named(book, name), sex)


@app.command()
def assign(
    context: typer.Context,
    name: Annotated[str, typer.Argument(help="Name of the reference, or none.")],
    animals: Annotated[list[str], typer.Argument(help="Codes or names of animals.")],
    line: Annotated[str, typer.Option(help="Line, where the reference has lines.")] = "",
) -> Answer:
    """Hold animals to a reference; `none` leaves them to their own channel.

    Without this an animal is held to the only reference of its species, where there is one.
    """
    session = session_of(context)
    with session.step("assigned a reference") as writer:
        book = writer.book
        stored = None if name.strip().casefold() == "none" else named(book, name)
        chosen = [book.animal(a) for a in dict.fromkeys(animals)]
        storing.assign(writer, stored, chosen, line)
        who = ", ".join(a.label for a in chosen)
        words = f"{who}: held to {stored.name if stored else 'no reference'}"
        writer.say(words)
    return said(words, hints=[f"warmside weight show {chosen[0].code}"])


@app.command()
def drop(context: typer.Context, name: Name) -> Answer:
    """Remove a reference; animals assigned to it are held to none."""
    session = session_of(context)
    with session.step(f"dropped the reference {name}") as writer:
        stored = named(writer.book, name)
        count = storing.drop(writer, stored)
        writer.say(f"dropped the reference {stored.name}")
    freed = f"; {count} animals were assigned to it" if count else ""
    return said(f"dropped the reference {stored.name}{freed}", hints=["warmside undo"])


@app.command()
def build(
    context: typer.Context,
    name: Name,
    species: Annotated[str, typer.Option(help="Species of the reference.")],
    sex: Annotated[
        str, typer.Option(help="male, female, any (all together) or each (a curve for both).")
    ] = "any",
    file: Annotated[
        Path | None,
        typer.Option("--from", help="Pooled weighings as CSV: animal, sex, age_days, mass_g."),
    ] = None,
    source: Annotated[str, typer.Option(help="Whose weighings these are.")] = "",
    licence: Annotated[str, typer.Option(help="Licence, where others shall have it.")] = "",
) -> Answer:
    """Fit a reference to your own weighings of a species, or to a pooled file."""
    from warmside.plugins.weight.lms.building import Pool, built
    from warmside.plugins.weight.lms.pooled_file import parse_pooled
    from warmside.plugins.weight.reading.pool import own_pool

    pooled = parse_pooled(read_text(file)) if file is not None else None
    default = "own weighings" if pooled is None else "pooled weighings"
    session = session_of(context)
    with session.step("built a reference") as writer:
        kept = storing.checked_name(writer, name)
        found = writer.book.species_named(species).scientific
        pool = own_pool(session.asking(writer.book), found) if pooled is None else Pool(pooled)
        made = built(pool, found, sex, Source(source or default, Mark.KEEPERS_OWN), licence)
        storing.keep(writer, kept, made.reference, made.made_from, made.ranges)
        writer.say(f"built the reference {kept}")
        stored = named(writer.reread(), kept)
    return shown(stored, "")
