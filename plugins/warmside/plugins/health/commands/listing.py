"""The command that shows an animal's cases."""

from __future__ import annotations

from typing import Annotated

import typer

from warmside.api import Answer, Tone, Words, session_of
from warmside.plugins.health.cases.course_of_case import cases
from warmside.plugins.health.reading import entries_of
from warmside.plugins.health.telling import table

app = typer.Typer(help="Cases of illness.", no_args_is_help=True)
NO_DIAGNOSIS = (
    "What the keeper wrote down, no diagnosis. What is ill and how it is treated a vet says."
)


@app.callback()
def _group() -> None:
    """Cases of illness."""


@app.command("cases")
def show_cases(
    context: typer.Context,
    animal: Annotated[str, typer.Argument(help="The animal.")],
) -> Answer:
    """Show the cases of an animal with all entries, open and closed."""
    with session_of(context).read() as book:
        whom = book.animal(animal)
        shown = table(cases(entries_of(book, whom.id, book.today)))
    return Answer(f"Cases of {whom.label}", (Words(NO_DIAGNOSIS, Tone.CAUTION), shown))
