"""`warmside clutch`: eggs laid or young born together, and what came of them."""

from __future__ import annotations

from typing import Annotated

import typer

from warmside.core.answers.parts import Answer
from warmside.core.asking.subjects.clutch_cards import clutches
from warmside.core.doing.kin import ClutchTyped, alter_clutch, enter_clutch, show_clutch
from warmside.core.session.session import session_of

app = typer.Typer(help="Clutches, and what came of them.", no_args_is_help=True)

Clutch = Annotated[str, typer.Argument(help="Code of the clutch.")]
Dam = Annotated[str | None, typer.Option(help="The mother.")]
Sire = Annotated[
    list[str] | None, typer.Option(help="The father; one of several with its weight: PEP=0.7.")
]
Certainty = Annotated[
    str | None, typer.Option(help="How sure the sire is: certain, probable or possible.")
]
Laid = Annotated[str | None, typer.Option(help="The day of laying, or of birth.")]
Hatched = Annotated[str | None, typer.Option(help="The day when the first hatched.")]
LastHatched = Annotated[str | None, typer.Option(help="The day when the last hatched.")]
Eggs = Annotated[int | None, typer.Option(help="Eggs, or young born, in all.")]
Good = Annotated[int | None, typer.Option(help="Of these, good ones.")]
Note = Annotated[str | None, typer.Option(help="A note.")]


@app.command()
def add(
    context: typer.Context,
    dam: Dam = None,
    sire: Sire = None,
    certainty: Certainty = None,
    laid: Laid = None,
    hatched: Hatched = None,
    last_hatched: LastHatched = None,
    eggs: Eggs = None,
    good: Good = None,
    code: Annotated[str | None, typer.Option(help="Short code; else C1, C2 …")] = None,
    note: Note = None,
) -> Answer:
    """Enter a clutch. Its young: `warmside animal add NAME --clutch CODE`."""
    wanted = ClutchTyped(
        code, dam, tuple(sire or ()), certainty, laid, hatched, last_hatched, eggs, good, note
    )
    return enter_clutch(session_of(context), wanted)


@app.command("list")
def list_clutches(context: typer.Context) -> Answer:
    """List the clutches."""
    with session_of(context).read() as book:
        return clutches(book)


@app.command()
def show(context: typer.Context, clutch: Clutch) -> Answer:
    """Show one clutch: its parents, its young, what was recorded of it."""
    return show_clutch(session_of(context), clutch)


@app.command()
def change(
    context: typer.Context,
    clutch: Clutch,
    dam: Dam = None,
    sire: Sire = None,
    certainty: Certainty = None,
    laid: Laid = None,
    hatched: Hatched = None,
    last_hatched: LastHatched = None,
    eggs: Eggs = None,
    good: Good = None,
    code: Annotated[str | None, typer.Option(help="New code.")] = None,
    note: Note = None,
) -> Answer:
    """Change what was entered of a clutch; young that have its parents get the new ones."""
    wanted = ClutchTyped(
        code, dam, tuple(sire or ()), certainty, laid, hatched, last_hatched, eggs, good, note
    )
    return alter_clutch(session_of(context), clutch, wanted)
