"""`warmside undo` and `warmside redo`."""

from __future__ import annotations

from typing import Annotated

import typer

from warmside.cli.asking_back import with_questions
from warmside.core.answers.parts import Answer
from warmside.core.asking.subjects.histories import steps
from warmside.core.doing import undoing
from warmside.core.session.session import session_of

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
        with session.read() as book:
            return steps(book)
    wanted = undoing.Undoing(step, preview, sure=yes or not session.asks)
    return with_questions(session, undoing.undo, wanted)


@redo_app.command("")
def redo(context: typer.Context) -> Answer:
    """Put the step that was taken back last in force again."""
    return undoing.redo(session_of(context))
