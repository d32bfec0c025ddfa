"""`warmside today` and `warmside why`: the round, and the reasons for a line of it."""

from __future__ import annotations

from typing import Annotated

import typer
from msgspec.structs import replace

from warmside.cli.round_memory import remember, remembered
from warmside.core.answers.parts import Answer
from warmside.core.asking.round_told import told_round
from warmside.core.asking.shown import shown_round
from warmside.core.asking.timings import timings
from warmside.core.asking.why_told import told_why
from warmside.core.session.session import session_of

app = typer.Typer()
why_app = typer.Typer()


@app.command("")
def today(
    context: typer.Context,
    on: Annotated[str | None, typer.Option(help="The round of that day.")] = None,
    why: Annotated[bool, typer.Option("--why", help="Also why each task is due.")] = False,
    with_timings: Annotated[
        bool, typer.Option("--timings", help="Also how long each plugin took in each hook.")
    ] = False,
) -> Answer:
    """The round: findings, then one line a task in the order of care, what is late first."""
    session = session_of(context)
    with session.ask() as ask:
        day = session.day(on, ask.book)
        answer = told_round(ask, day, why=why)
        if with_timings:
            answer = replace(answer, parts=(*answer.parts, timings(ask.host)))
        remember(session.path, shown_round(ask, day))
    return answer


@why_app.command("")
def why(
    context: typer.Context,
    lines: Annotated[
        list[str], typer.Argument(help="Numbers of tasks, letters of findings, or all.")
    ],
) -> Answer:
    """Why lines of the round stand there: the whole reason, its source, and what to mind."""
    session = session_of(context)
    with session.ask() as ask:
        return told_why(ask, remembered(session.path) or shown_round(ask, ask.book.today), lines)
