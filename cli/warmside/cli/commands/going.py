"""`warmside lend` and `warmside depart`: animals that go."""

from __future__ import annotations

from typing import Annotated

import typer

from warmside.cli.commands.coming import At, Confirm
from warmside.core.answers.parts import Answer
from warmside.core.doing.coming_and_going import come_or_go, lend_out
from warmside.core.doing.recording import Recording
from warmside.core.session.session import session_of

lend_app = typer.Typer()
depart_app = typer.Typer()

Animals = Annotated[list[str], typer.Argument(help="Codes or names.")]
Note = Annotated[str, typer.Option(help="A note.")]


@lend_app.command("")
def lend(
    context: typer.Context,
    animals: Animals,
    to: Annotated[str, typer.Option(help="To whom.")],
    until: Annotated[str, typer.Option(help="Agreed return: a day, 2026-06 or 2026.")] = "",
    terms: Annotated[str, typer.Option(help="Terms of the loan.")] = "",
    at: At = None,
    note: Note = "",
    confirm: Confirm = False,
) -> Answer:
    """Record that animals leave for a while and stay yours."""
    fields = {"to": to, "terms": terms}
    wanted = _recording("lent", animals, fields, at, note, confirm)
    return lend_out(session_of(context), wanted, until)


@depart_app.command("")
def depart(
    context: typer.Context,
    animals: Animals,
    how: Annotated[str, typer.Option(help="sold, given away, back to its owner or lost.")],
    to: Annotated[str, typer.Option(help="To whom.")] = "",
    terms: Annotated[str, typer.Option(help="Terms.")] = "",
    at: At = None,
    note: Note = "",
    confirm: Confirm = False,
) -> Answer:
    """Record that animals leave for good. A death: `warmside record died`."""
    fields = {"how": how, "to": to, "terms": terms}
    wanted = _recording("departed", animals, fields, at, note, confirm)
    return come_or_go(session_of(context), wanted)


def _recording(
    kind: str, animals: list[str], fields: dict[str, str], at: str | None, note: str, sure: bool
) -> Recording:
    return Recording(kind, tuple(animals), fields, at=at, note=note, confirmed=sure)
