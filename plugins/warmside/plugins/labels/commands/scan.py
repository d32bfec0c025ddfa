"""`warmside scan`: what a scanner typed, opened: the animal or enclosure and what is due."""

from __future__ import annotations

from typing import Annotated

import typer
from msgspec.structs import replace

from warmside.api import Answer, at_a_glance, session_of
from warmside.plugins.labels.reading.subject import about_of, label_code, subject_of

app = typer.Typer()


@app.command("")
def scan(
    context: typer.Context,
    text: Annotated[str, typer.Argument(help="What the scanner typed; a code or name will do.")],
    on: Annotated[str | None, typer.Option(help="What is due on that day.")] = None,
) -> Answer:
    """Open what a scanner typed: the animal or enclosure, and what is due there."""
    session = session_of(context)
    with session.ask() as ask:
        subject = subject_of(ask.book, text)
        found = at_a_glance(ask, about_of(subject), session.day(on, ask.book))
    return replace(found, extra={**found.extra, "label_code": label_code(subject)})
