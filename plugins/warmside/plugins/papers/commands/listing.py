"""The commands that list papers."""

from __future__ import annotations

from typing import Annotated

import typer

from warmside.api import Answer, Tone, Words, session_of
from warmside.plugins.papers.reading.stored import documents, documents_of, marks, marks_of
from warmside.plugins.papers.telling.inventory import inventory
from warmside.plugins.papers.telling.papers import LAW, documents_table, marks_table, provenance


def list_papers(
    context: typer.Context,
    animal: Annotated[str | None, typer.Argument(help="Of that animal; else all.")] = None,
) -> Answer:
    """List marks and documents, of one animal or all, with the state of each."""
    with session_of(context).ask() as ask:
        book = ask.book
        whom = book.animal(animal) if animal else None
        known = marks_of(book, whom.id) if whom else marks(book)
        held = documents_of(book, whom.id) if whom else documents(book)
        tables = (marks_table(book, known), documents_table(book, held, book.today))
        origin = tuple(provenance(ask, whom.id, book.today)) if whom else ()
    title = f"Papers of {whom.label}" if whom else "Papers"
    return Answer(title, (Words(LAW, Tone.CAUTION), *origin, *tables))


def list_all(
    context: typer.Context,
    on: Annotated[str | None, typer.Option(help="As of that day.")] = None,
) -> Answer:
    """List all animals for insurance or the fire brigade; --save list.pdf."""
    session = session_of(context)
    with session.ask() as ask:
        return inventory(ask, session.day(on, ask.book))
