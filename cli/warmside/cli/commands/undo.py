"""`warmside undo` and `warmside redo`."""

from __future__ import annotations

from typing import Annotated

import typer

from warmside.cli.commands.asking import confirm
from warmside.core.answers.parts import Answer, Column, Table, said
from warmside.core.session.session import session_of
from warmside.core.values.moments import local_text
from warmside.core.values.units import Unit

undo_app = typer.Typer()
redo_app = typer.Typer()


@undo_app.command("")
def undo(
    context: typer.Context,
    step: Annotated[int | None, typer.Argument(help="Number of a step; else the last.")] = None,
    preview: Annotated[bool, typer.Option(help="Only say what would be taken back.")] = False,
    yes: Annotated[bool, typer.Option(help="Do it without asking.")] = False,
    list_steps: Annotated[bool, typer.Option("--list", help="List the last steps.")] = False,
) -> Answer:
    """Take back the last step, whatever it wrote. `warmside redo` puts it in force again."""
    session = session_of(context)
    if list_steps:
        return steps(context)
    last = session.open().step_to_undo(step)
    if preview:
        return said(f"would take back step {last.id}: {last.words}", hints=["warmside undo"])
    if session.asks:
        confirm(session, yes, f"Take back step {last.id}: {last.words}?")
    done = session.open().undo(session.now, last.id)
    return said(
        f"took back step {done.id}: {done.words}", hints=["warmside redo (put it in force again)"]
    )


def steps(context: typer.Context) -> Answer:
    """The last steps, newest first."""
    columns = (
        Column("step", "step", Unit.COUNT),
        Column("when", "when"),
        Column("what", "what was done"),
        Column("state", "state"),
    )
    with session_of(context).read() as book:
        zone = book.home.zone
        rows = tuple(
            (
                s.id,
                local_text(s.at.astimezone(zone).date(), s.at, zone),
                s.words if s.kind == "do" else f"{s.kind} of step {s.of}: {s.words}",
                f"taken back by {s.undone_by}" if s.undone_by else "",
            )
            for s in book.steps()
        )
    return Answer("Steps", (Table("steps", columns, rows),))


@redo_app.command("")
def redo(context: typer.Context) -> Answer:
    """Put the step that was taken back last in force again."""
    session = session_of(context)
    done = session.open().redo(session.now)
    return said(f"in force again, step {done.of}: {done.words}", hints=["warmside undo"])
