"""`warmside species`: the species that animals can be of."""

from __future__ import annotations

from typing import Annotated

import typer

from warmside.core.answers.parts import Answer
from warmside.core.asking.own_values import CORE, names_of
from warmside.core.asking.subjects.listings import species
from warmside.core.doing.entering import enter_species
from warmside.core.doing.setting import NewValue, set_value
from warmside.core.record.species.known import GROUPS
from warmside.core.session.session import session_of

app = typer.Typer(help="Species.", no_args_is_help=True)


@app.command("list")
def list_species(context: typer.Context) -> Answer:
    """List the species of this collection."""
    with session_of(context).read() as book:
        return species(book)


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
    return enter_species(session_of(context), scientific, common, group, sex_system)


@app.command("set")
def set_own(
    context: typer.Context,
    species: Annotated[str, typer.Argument(help="Scientific or common name.")],
    name: Annotated[str, typer.Argument(help=names_of("species"))],
    value: Annotated[str, typer.Argument(help="The value, or: default.")],
    note: Annotated[str, typer.Option(help="Where it comes from, such as a vet.")] = "",
) -> Answer:
    """Set from when on animals of a species count as adults."""
    wanted = NewValue(CORE.name, name, value, species=species, note=note)
    return set_value(session_of(context), wanted, CORE)
