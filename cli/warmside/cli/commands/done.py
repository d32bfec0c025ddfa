"""`warmside done`: record what settles tasks of the round."""

from __future__ import annotations

from typing import Annotated

import typer

from warmside.cli.round_memory import remembered
from warmside.core.answers.parts import Answer
from warmside.core.doing.settling import Settling, settle
from warmside.core.session.session import session_of

app = typer.Typer()


@app.command("")
def done(
    context: typer.Context,
    tasks: Annotated[
        list[str], typer.Argument(help="Numbers from the round; with a value: 3=412g.")
    ],
    at: Annotated[str | None, typer.Option(help="When it was done.")] = None,
    on: Annotated[str | None, typer.Option(help="The round of that day, as for today.")] = None,
    note: Annotated[str, typer.Option(help="A note.")] = "",
    confirm: Annotated[bool, typer.Option(help="It is right, though it looks odd.")] = False,
) -> Answer:
    """Record the events that settle tasks of the round as it was last shown."""
    session = session_of(context)
    with session.read() as book:
        shown = remembered(session.path, session.day(on, book))
    return settle(session, Settling(tuple(tasks), shown, on, at, note, confirm))
