"""`warmside scan`: what a scanner typed, opened: the animal or enclosure and what is due."""

from __future__ import annotations

from typing import Annotated

import typer

from warmside.api import Animal, Answer, session_of
from warmside.plugins.labels.card import animal_answer, enclosure_answer
from warmside.plugins.labels.lookup import subject_of

app = typer.Typer()


@app.command("")
def scan(
    context: typer.Context,
    text: Annotated[str, typer.Argument(help="What the scanner typed; a code or name will do.")],
    on: Annotated[str | None, typer.Option(help="What is due on that day.")] = None,
) -> Answer:
    """Open what a scanner typed: the animal or enclosure, and what is due there."""
    session = session_of(context)
    with session.read() as book:
        subject = subject_of(book, text)
        day = session.day(on, book)
        if isinstance(subject, Animal):
            return animal_answer(book, subject, day)
        return enclosure_answer(book, subject, day)
