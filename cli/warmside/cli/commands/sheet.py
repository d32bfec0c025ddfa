"""`warmside sheet`: what goes to a vet, a sitter, the next owner, or hangs by the door."""

from __future__ import annotations

from typing import Annotated

import typer

from warmside.core.answers.parts import Answer
from warmside.core.asking.sheets.vet import VetSheet, vet_sheet
from warmside.core.session.session import session_of

app = typer.Typer(help="Sheets for a vet, a sitter, the next owner.", no_args_is_help=True)

Animal = Annotated[str, typer.Argument(help="The animal, by code or name.")]
Paper = Annotated[str | None, typer.Option(help="a4 or letter; else as your units go.")]


@app.callback()
def _group() -> None:
    """Sheets for other people; as a PDF with --save FILE.pdf."""


@app.command("vet")
def vet(
    context: typer.Context,
    animal: Animal,
    reason: Annotated[str, typer.Option(help="Why it comes, in your words.")] = "",
    question: Annotated[list[str] | None, typer.Option(help="What to ask; repeatable.")] = None,
    keeper: Annotated[str, typer.Option(help="Who brings it, and a telephone number.")] = "",
    on: Annotated[str | None, typer.Option(help="As of that day.")] = None,
    whole: Annotated[bool, typer.Option("--whole", help="As many pages as it needs.")] = False,
    paper: Paper = None,
) -> Answer:
    """One page for the vet: what was seen, then the history in a vet's order; --save FILE.pdf."""
    session = session_of(context)
    with session.ask() as ask:
        day = session.day(on, ask.book)
        asked = tuple(question or ())
        return vet_sheet(ask, VetSheet(animal, day, reason, asked, keeper, paper, whole))
