"""`warmside today`, `why` and `later`: the round, reasons for its lines, findings put off."""

from __future__ import annotations

from typing import Annotated

import typer
from msgspec.structs import replace

from warmside.cli.asking_back import with_questions
from warmside.cli.round_memory import remember, remembered
from warmside.core.answers.parts import Answer
from warmside.core.asking.rounds.round_told import told_round
from warmside.core.asking.rounds.shown import shown_round
from warmside.core.asking.rounds.why_told import told_why
from warmside.core.asking.timings import timings
from warmside.core.session.session import session_of

app = typer.Typer()
why_app = typer.Typer()
later_app = typer.Typer()


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


@later_app.command("")
def later(
    context: typer.Context,
    finding: Annotated[str, typer.Argument(help="Letter of a finding in the round.")],
    until: Annotated[str | None, typer.Option(help="The day from which it is shown again.")] = None,
    reason: Annotated[str | None, typer.Option(help="Why it can wait.")] = None,
) -> Answer:
    """Put a finding off until a day; it comes back sooner if it becomes more urgent."""
    from warmside.core.doing.rounds.putting_off import PuttingOff, put_off  # imports SQLAlchemy

    session = session_of(context)
    wanted = PuttingOff(finding, until, reason, remembered(session.path))
    return with_questions(session, put_off, wanted)
