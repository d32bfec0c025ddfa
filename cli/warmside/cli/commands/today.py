"""`warmside today`: the round, with findings and the animals that need nothing."""

from __future__ import annotations

from typing import Annotated

import typer
from msgspec.structs import replace

from warmside.cli.round_memory import remember
from warmside.core.answers.parts import Answer
from warmside.core.asking.round_told import told_round
from warmside.core.asking.timings import timings
from warmside.core.session.session import session_of

app = typer.Typer()


@app.command("")
def today(
    context: typer.Context,
    on: Annotated[str | None, typer.Option(help="The round of that day.")] = None,
    with_timings: Annotated[
        bool, typer.Option("--timings", help="Also how long each plugin took in each hook.")
    ] = False,
) -> Answer:
    """The round: one line a task, in the order of care, with why; findings stand below."""
    session = session_of(context)
    with session.ask() as ask:
        day = session.day(on, ask.book)
        answer = told_round(ask, day)
        if with_timings:
            answer = replace(answer, parts=(*answer.parts, timings(ask.host)))
        remember(session.path, day, [s.key for s in ask.round(day)])
    return answer
