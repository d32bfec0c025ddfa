"""`warmside new`: make a collection."""

from __future__ import annotations

from typing import Annotated

import typer

from warmside.cli.commands.asking import ask
from warmside.core.answers.parts import Answer, said
from warmside.core.session.session import session_of
from warmside.core.values.display import parse_display
from warmside.core.values.errors import BadInput, Refused

app = typer.Typer()


@app.command("")
def new(
    context: typer.Context,
    name: Annotated[str | None, typer.Option(help="What the collection is called.")] = None,
    zone: Annotated[str | None, typer.Option(help="Home time zone, such as Europe/Vienna.")] = None,
    units: Annotated[
        str | None, typer.Option(help="metric, us trade or imperial; changeable any day.")
    ] = None,
) -> Answer:
    """Make a new collection: one file, where --collection says or in your data folder."""
    session = session_of(context)
    if session.path.exists():
        raise Refused(f"{session.path} is there already; name another file with --collection")
    name = ask(session, name, "Name of the collection", "--name")
    zone = ask(session, zone, "Home time zone", "--zone", own_zone())
    units = parse_display(ask(session, units, "Units", "--units", "metric")).text
    if not name.strip():
        raise BadInput("the collection needs a name: --name 'Reptile room'")
    from warmside.cli.creating import create_file

    create_file(session.path, name.strip(), zone, units)
    return said(
        f"made the collection {name.strip()!r} in {session.path}",
        hints=[
            "warmside enclosure add NAME --room ROOM",
            "warmside animal add NAME --species SPECIES --enclosure CODE",
        ],
    )


def own_zone() -> str:
    """This machine's time zone, where it can be told."""
    import os
    from pathlib import Path

    named = os.environ.get("TZ", "")
    link = Path("/etc/localtime")
    if not named and link.is_symlink():
        named = str(link.resolve()).partition("zoneinfo/")[2]
    return named if "/" in named else ""
