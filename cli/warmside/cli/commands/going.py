"""`warmside lend` and `warmside depart`: animals that go."""

from __future__ import annotations

from datetime import date
from typing import Annotated

import typer

from warmside.cli.commands.coming import At, Confirm
from warmside.cli.commands.recording import record_for_animals, recorded
from warmside.core.answers.parts import Answer
from warmside.core.session.session import session_of
from warmside.core.values.errors import BadInput
from warmside.core.values.moments import parse_partial_date

lend_app = typer.Typer()
depart_app = typer.Typer()

Animals = Annotated[list[str], typer.Argument(help="Codes or names.")]
Note = Annotated[str, typer.Option(help="A note.")]


@lend_app.command("")
def lend(
    context: typer.Context,
    animals: Animals,
    to: Annotated[str, typer.Option(help="To whom.")],
    until: Annotated[str, typer.Option(help="Agreed day of return.")] = "",
    terms: Annotated[str, typer.Option(help="Terms of the loan.")] = "",
    at: At = None,
    note: Note = "",
    confirm: Confirm = False,
) -> Answer:
    """Record that animals leave for a while and stay yours."""
    session = session_of(context)
    with session.step("lent", confirmed=confirm) as writer:
        agreed = agreed_day(until, session.when(at, writer.book).day) if until else ""
        typed = {"to": to, "terms": terms, "until": agreed}
        record_for_animals(session, writer, "lent", animals, typed, at, note)
    return recorded(session, writer.recorded)


def agreed_day(until: str, day: date) -> str:
    """The day of return as it is stored; raises BadInput for one before the loan begins."""
    agreed = parse_partial_date(until)
    if agreed.latest < day:
        raise BadInput(f"--until {agreed.text} is before the loan begins, {day}")
    return agreed.text


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
    session = session_of(context)
    with session.step("departed", confirmed=confirm) as writer:
        typed = {"how": how, "to": to, "terms": terms}
        record_for_animals(session, writer, "departed", animals, typed, at, note)
    return recorded(session, writer.recorded)
