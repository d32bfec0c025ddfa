"""`warmside move`: put animals into another enclosure."""

from __future__ import annotations

from typing import Annotated

import typer

from warmside.cli.commands.coming import At, Confirm
from warmside.cli.commands.going import Animals, Note
from warmside.core.answers.parts import Answer
from warmside.core.doing.coming_and_going import come_or_go
from warmside.core.doing.recording import Recording
from warmside.core.session.session import session_of

app = typer.Typer()


@app.command("")
def move(
    context: typer.Context,
    animals: Animals,
    enclosure: Annotated[str, typer.Option("--to", help="The enclosure they go to.")],
    reason: Annotated[str, typer.Option(help="Why.")] = "",
    at: At = None,
    note: Note = "",
    confirm: Confirm = False,
) -> Answer:
    """Put animals into another enclosure; the history is kept."""
    wanted = Recording(
        "moved",
        tuple(animals),
        {"reason": reason},
        enclosure=enclosure,
        at=at,
        note=note,
        confirmed=confirm,
    )
    return come_or_go(session_of(context), wanted)
