"""`warmside done`: record what settles tasks of the round."""

from __future__ import annotations

from typing import Annotated

import typer
from msgspec.structs import replace

from warmside.cli.round_memory import remembered
from warmside.core.answers.parts import Answer
from warmside.core.doing.rounds.settled_by import Lacking
from warmside.core.doing.rounds.settling import Settling, settle, still_asked, value_problem
from warmside.core.session.session import Session, session_of
from warmside.faces.terminal.visible import visible_line

app = typer.Typer()


@app.command("")
def done(
    context: typer.Context,
    tasks: Annotated[
        list[str],
        typer.Argument(
            help="all; numbers as 1-3 or 1,4; with a value 3=412g; an enclosure or animal."
        ),
    ],
    at: Annotated[str | None, typer.Option(help="When it was done.")] = None,
    on: Annotated[
        str | None, typer.Option(help="The round of that day; else the one last shown.")
    ] = None,
    note: Annotated[str, typer.Option(help="A note.")] = "",
    confirm: Annotated[bool, typer.Option(help="It is right, though it looks odd.")] = False,
) -> Answer:
    """Record the events that settle tasks of the round as it was last shown."""
    session = session_of(context)
    shown = remembered(session.path)
    wanted = Settling(tuple(tasks), shown, on, at, note, confirm)
    if session.asks:
        typed = (_asked(session, wanted, lack) for lack in still_asked(session, wanted))
        wanted = replace(wanted, tasks=(*wanted.tasks, *(t for t in typed if t)))
    return settle(session, wanted)


def _asked(session: Session, wanted: Settling, lack: Lacking) -> str:
    """`3=412g` as the keeper answers it; nothing where the answer is empty."""
    words = f"{lack.number}  {lack.name}: {lack.needed} (enter: leave it)"
    while True:
        given = str(typer.prompt(words, default="", show_default=False, err=True)).strip()
        problem = value_problem(session, wanted, lack, given) if given else None
        if problem is None:
            return f"{lack.number}={given}" if given else ""
        typer.echo(visible_line(str(problem)), err=True)
