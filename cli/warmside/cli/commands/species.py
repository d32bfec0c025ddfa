"""`warmside species`: the species that animals can be of."""

from __future__ import annotations

from typing import Annotated

import typer

from warmside.core.answers.parts import Answer, Column, Kind, Table, said
from warmside.core.record.entries import add_species
from warmside.core.record.species import GROUPS
from warmside.core.session.session import session_of

app = typer.Typer(help="Species.", no_args_is_help=True)


@app.command("list")
def list_species(context: typer.Context) -> Answer:
    """List the species of this collection."""
    columns = (
        Column("scientific", "scientific name", Kind.LATIN),
        Column("common", "common name"),
        Column("group", "group"),
        Column("sex_system", "sex"),
    )
    with session_of(context).read() as book:
        rows = tuple((s.scientific, s.common, s.group, s.sex_system) for s in book.species.values())
    return Answer("Species", (Table("species", columns, rows),))


@app.command()
def add(
    context: typer.Context,
    scientific: Annotated[str, typer.Argument(help="Scientific name.")],
    common: Annotated[str, typer.Option(help="Common name.")] = "",
    group: Annotated[str, typer.Option(help=", ".join(GROUPS))] = "other",
    sex_system: Annotated[
        str, typer.Option(help="ZZ/ZW, XX/XY, temperature or unknown.")
    ] = "unknown",
) -> Answer:
    """Add a species."""
    session = session_of(context)
    with session.step(f"added species {scientific}") as writer:
        made = add_species(writer, scientific, common, group, sex_system)
    return said(
        f"added species {made.scientific} ({made.common}, {made.group})",
        hints=["warmside undo (take it back)"],
    )
