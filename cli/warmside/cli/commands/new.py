"""`warmside new`: make a collection."""

from __future__ import annotations

import os
from pathlib import Path
from textwrap import fill
from typing import Annotated

import typer
from msgspec.structs import replace

from warmside.cli.asking_back import with_questions
from warmside.core.answers.parts import Answer
from warmside.core.plugins.discovery import installed, manifests
from warmside.core.plugins.manifest import Manifest
from warmside.core.session.session import Session, session_of
from warmside.core.values.errors import NotFound
from warmside.faces.terminal.visible import visible_line

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
    session = session_of(context)
    answer = with_questions(session, make_collection, wanted)
    if not session.asks:
        return answer
    more = _offered(session)
    return answer if more is None else replace(answer, parts=(*answer.parts, *more.parts))


def _offered(session: Session) -> Answer | None:
    """The plugins that the keeper chose from their list; none where the answer is empty."""
    from warmside.cli.commands.plugin import enabled

    known = [m for m in manifests(sorted(installed())) if isinstance(m, Manifest)]
    for manifest in known:
        told = visible_line(f"{manifest.name:<12}{manifest.summary}")
        typer.echo(fill(told, 78, initial_indent="  ", subsequent_indent=" " * 14), err=True)
    words = "Plugins, separated by blanks, or all (enter: none yet)"
    while True:
        typed = str(typer.prompt(words, default="", show_default=False, err=True)).split()
        try:
            return enabled(session, [name.strip(",") for name in typed]) if typed else None
        except NotFound as unknown:
            typer.echo(visible_line(str(unknown)), err=True)


def own_zone() -> str:
    """This machine's time zone, where it can be told."""
    named = os.environ.get("TZ", "")
    link = Path("/etc/localtime")
    if not named and link.is_symlink():
        named = str(link.resolve()).partition("zoneinfo/")[2]
    return named if "/" in named else ""
