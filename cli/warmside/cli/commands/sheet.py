"""`warmside sheet`: what goes to a vet, a sitter, the next owner, or hangs by the door."""

from __future__ import annotations

from pathlib import Path
from typing import Annotated

import typer

from warmside.core.answers.parts import Answer
from warmside.core.asking.sheets.emergency import EmergencySheet, emergency_sheet
from warmside.core.asking.sheets.owner import OwnerSheet, owner_sheet
from warmside.core.asking.sheets.sitter import SitterSheet, sitter_form, sitter_sheet
from warmside.core.asking.sheets.vet import VetSheet, vet_sheet
from warmside.core.file.half_made import whole
from warmside.core.session.session import session_of
from warmside.core.values.errors import BadInput, FileProblem, Refused

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


@app.command("sitter")
def sitter(
    context: typer.Context,
    until: Annotated[str, typer.Option(help="The last day of the sitter.")],
    first: Annotated[str | None, typer.Option("--from", help="The first day; else today.")] = None,
    only: Annotated[list[str] | None, typer.Option(help="Only that enclosure; repeatable.")] = None,
    call: Annotated[list[str] | None, typer.Option(help="Whom to call; repeatable.")] = None,
    never: Annotated[list[str] | None, typer.Option(help="What never to do; repeatable.")] = None,
    table: Annotated[
        Path | None, typer.Option(help="Also a CSV file to fill in, which import reads.")
    ] = None,
    paper: Paper = None,
) -> Answer:
    """What a sitter does day by day, with boxes to tick; what if, never, whom to call."""
    session = session_of(context)
    with session.ask() as ask:
        days = (session.day(first, ask.book), session.day(until, ask.book))
        words = (tuple(only or ()), tuple(call or ()), tuple(never or ()))
        wanted = SitterSheet(*days, *words, paper)
        answer = sitter_sheet(ask, wanted)
        if table is not None:
            write_form(table, sitter_form(ask, wanted))
        return answer


@app.command("owner")
def owner(
    context: typer.Context,
    animal: Animal,
    to: Annotated[str, typer.Option(help="To whom it goes.")] = "",
    last: Annotated[int | None, typer.Option(help="So many events of its history.")] = None,
    on: Annotated[str | None, typer.Option(help="As of that day.")] = None,
    whole: Annotated[
        bool, typer.Option("--whole", help="All that is reported of it, on more pages.")
    ] = False,
    paper: Paper = None,
) -> Answer:
    """What the next owner needs to know of an animal, and the hand-over to sign."""
    session = session_of(context)
    with session.ask() as ask:
        day = session.day(on, ask.book)
        return owner_sheet(ask, OwnerSheet(animal, day, to, last, paper, whole))


@app.command("emergency")
def emergency(
    context: typer.Context,
    call: Annotated[list[str] | None, typer.Option(help="Whom to call; repeatable.")] = None,
    paper: Paper = None,
) -> Answer:
    """Who is where, marks and numbers, what to grab, how long the heat may be off."""
    with session_of(context).ask() as ask:
        return emergency_sheet(ask, EmergencySheet(tuple(call or ()), paper))


def write_form(path: Path, text: str) -> None:
    """A new file; one that is there is kept, since somebody may have filled it in."""
    if path.suffix.lower() != ".csv":
        raise BadInput(f"the table is a CSV file; name it {path.with_suffix('.csv').name}")
    if path.exists():
        raise Refused(f"{path} is there already; name another file for the table")
    try:
        with whole(path.resolve()) as part:
            part.write_text(text, encoding="utf-8")
    except OSError as error:
        raise FileProblem(f"cannot write {path}: {error.strerror}") from error
