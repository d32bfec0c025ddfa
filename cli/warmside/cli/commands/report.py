"""`warmside report`: the whole story of an animal or an enclosure."""

from __future__ import annotations

from typing import Annotated

import typer

from warmside.core.answers.parts import Answer
from warmside.core.asking.subjects.reports import Report
from warmside.core.asking.subjects.reports import report as told
from warmside.core.session.session import session_of

app = typer.Typer()


@app.command("")
def report(
    context: typer.Context,
    subject: Annotated[str, typer.Argument(help="An animal or an enclosure, by code or name.")],
    on: Annotated[str | None, typer.Option(help="As of that day.")] = None,
    last: Annotated[int, typer.Option(help="At most so many events, the newest.")] = 100,
) -> Answer:
    """The whole story, for a vet, a sitter or the next owner; as a PDF with --save FILE.pdf."""
    session = session_of(context)
    with session.ask() as ask:
        return told(ask, Report(subject, session.day(on, ask.book), last))
