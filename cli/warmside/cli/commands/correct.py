"""`warmside correct`: replace an event and keep the old one visible."""

from __future__ import annotations

from typing import Annotated

import typer

from warmside.core.answers.parts import Answer
from warmside.core.doing.correcting import Correction
from warmside.core.doing.correcting import correct as replaced
from warmside.core.session.session import session_of

app = typer.Typer()


@app.command("")
def correct(
    context: typer.Context,
    event: Annotated[int, typer.Argument(help="Number of the event, from the history.")],
    fields: Annotated[
        list[str] | None, typer.Argument(help="What is right: mass=412g outcome=refused …")
    ] = None,
    at: Annotated[str | None, typer.Option(help="When it was.")] = None,
    subject: Annotated[str | None, typer.Option(help="Whom it was about.")] = None,
    note: Annotated[str | None, typer.Option(help="The note.")] = None,
    confirm: Annotated[bool, typer.Option(help="It is right, though it looks odd.")] = False,
) -> Answer:
    """Replace an event: only what is typed changes. The old one stays visible as corrected."""
    wanted = Correction(event, tuple(fields or ()), at, subject, note, confirm)
    return replaced(session_of(context), wanted)
