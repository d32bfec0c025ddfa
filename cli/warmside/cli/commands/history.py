"""`warmside history`: what happened, oldest first, the newest last."""

from __future__ import annotations

from typing import Annotated

import typer

from warmside.core.answers.parts import Answer
from warmside.core.asking.subjects.histories import History
from warmside.core.asking.subjects.histories import history as told
from warmside.core.session.session import session_of

app = typer.Typer()


@app.command("")
def history(
    context: typer.Context,
    subject: Annotated[
        str | None,
        typer.Argument(help="An animal or enclosure."),
    ] = None,
    kind: Annotated[list[str] | None, typer.Option(help="Only events of this kind.")] = None,
    since: Annotated[str | None, typer.Option(help="From that day, month or year on.")] = None,
    until: Annotated[str | None, typer.Option(help="Up to that day, month or year.")] = None,
    last: Annotated[int, typer.Option(help="At most so many, the newest.")] = 30,
) -> Answer:
    """What happened, the newest last; corrected events are shown with what replaced them."""
    session = session_of(context)
    with session.ask() as ask:
        wanted = History(
            subject,
            tuple(kind or ()),
            session.typed_date(since, ask.book).earliest if since else None,
            session.typed_date(until, ask.book).latest if until else None,
            last,
        )
        return told(ask, wanted)
