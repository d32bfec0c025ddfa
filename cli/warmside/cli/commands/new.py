"""`warmside new`: make a collection."""

from __future__ import annotations

import os
from pathlib import Path
from typing import Annotated

import typer

from warmside.cli.asking_back import with_questions
from warmside.core.answers.parts import Answer
from warmside.core.session.session import session_of

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
    from warmside.cli.creating import NewCollection, make_collection  # imports Alembic

    wanted = NewCollection(name, zone, units, own_zone())
    return with_questions(session_of(context), make_collection, wanted)


def own_zone() -> str:
    """This machine's time zone, where it can be told."""
    named = os.environ.get("TZ", "")
    link = Path("/etc/localtime")
    if not named and link.is_symlink():
        named = str(link.resolve()).partition("zoneinfo/")[2]
    return named if "/" in named else ""
