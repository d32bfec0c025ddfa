"""`warmside move`: put animals into another enclosure."""

from __future__ import annotations

from dataclasses import replace
from typing import Annotated

import typer

from warmside.cli.commands.coming import At, Confirm
from warmside.cli.commands.going import Animals, Note
from warmside.cli.commands.recording import record_for_animals, recorded
from warmside.core.answers.parts import Answer
from warmside.core.record.book import Book
from warmside.core.session.session import session_of

app = typer.Typer()


@app.command("")
def move(
    context: typer.Context,
    animals: Animals,
    enclosure: Annotated[str, typer.Option("--to", help="The enclosure they go to.")],
    reason: Annotated[str, typer.Option(help="Why.")] = "",
    at: At = None,
    note: Note = "",
    confirm: Confirm = False,
) -> Answer:
    """Put animals into another enclosure; the history is kept."""
    session = session_of(context)
    with session.step("moved", confirmed=confirm) as writer:
        record_for_animals(
            session, writer, "moved", animals, {"reason": reason}, at, note, enclosure
        )
        warnings = company(writer.reread(), enclosure)
    return replace(recorded(session, writer.recorded), warnings=warnings)


def company(book: Book, enclosure: str) -> tuple[str, ...]:
    """A message where animals now share the enclosure; allowed, but never unseen."""
    place = book.enclosure(enclosure)
    inside = book.occupants().get(place.id, ())
    if len(inside) < 2:
        return ()
    names = ", ".join(book.animals[a].label for a in inside)
    return (f"{len(inside)} animals are in {place.code} now: {names}",)
