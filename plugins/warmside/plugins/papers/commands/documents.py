"""The commands that enter, change and put aside documents."""

from __future__ import annotations

from datetime import date
from typing import Annotated, Any

import typer
from msgspec.structs import replace

from warmside.api import Animal, Answer, BadInput, Book, Session, Tone, Words, said, session_of
from warmside.plugins.papers.commands.keeping import change_document, keep_document
from warmside.plugins.papers.documents.held import KINDS, Document
from warmside.plugins.papers.reading.stored import document_numbered
from warmside.plugins.papers.telling.papers import LAW

TAKE_BACK = "warmside undo (take it back)"

Number = Annotated[str | None, typer.Option("--number", help="Its number.")]
By = Annotated[str | None, typer.Option(help="Which authority, seller or insurer.")]
Issued = Annotated[str | None, typer.Option(help="The day it was issued.")]
Until = Annotated[str | None, typer.Option(help="The last day it holds; else it has no end.")]
Kept = Annotated[str | None, typer.Option(help="Where it is kept.")]
Value = Annotated[str | None, typer.Option(help="What was paid or is insured, in your words.")]
Note = Annotated[str | None, typer.Option(help="A note.")]
Which = Annotated[int, typer.Argument(help="The number of the document, as listed.")]


def add(
    context: typer.Context,
    kind: Annotated[str, typer.Argument(help=", ".join(KINDS))],
    animal: Annotated[str | None, typer.Option(help="Of that animal; else the keeper's.")] = None,
    number: Number = None,
    by: By = None,
    issued: Issued = None,
    until: Until = None,
    kept: Kept = None,
    value: Value = None,
    note: Note = None,
) -> Answer:
    """Enter a document: a permit, a certificate, a receipt; the round reminds before it ends."""
    session = session_of(context)
    with session.step(f"papers add {kind}") as writer:
        whom = writer.book.animal(animal) if animal else None
        given = typed(session, writer.book, number, by, issued, until, kept, value, note)
        new = Document(0, whom.id if whom else None, kind, **given)
        row = keep_document(writer, new)
        label = whom.label if whom else "the keeper"
        writer.say(f"papers: {new.name} of {label}")
    law, told = Words(LAW, Tone.CAUTION), f"{label}: {new.name}, number {row} of the list"
    return said(told, law, hints=[*_scan(whom, row), TAKE_BACK])


def _scan(whom: Animal | None, row: int) -> list[str]:
    if whom is None:
        return []
    typed = f"warmside picture add {whom.code} FILE --thing papers.document:{row}"
    return [f"{typed} (keep a scan beside it)"]


def change(
    context: typer.Context,
    document: Which,
    number: Number = None,
    by: By = None,
    issued: Issued = None,
    until: Until = None,
    kept: Kept = None,
    value: Value = None,
    note: Note = None,
) -> Answer:
    """Change what is said of a document: a new end, another place."""
    session = session_of(context)
    with session.step(f"papers change {document}") as writer:
        known = document_numbered(writer.book, document)
        given = typed(session, writer.book, number, by, issued, until, kept, value, note)
        if not given:
            raise BadInput("say what changes: --until, --kept, --number, --by, --issued, --note")
        new = replace(known, **given)
        change_document(writer, known, new)
        state = new.state(writer.book.today)
        writer.say(f"papers: changed {new.name}")
    return said(f"{new.name}: {state}", hints=[TAKE_BACK])


def end(
    context: typer.Context,
    document: Which,
    on: Annotated[str | None, typer.Option(help="From that day; else today.")] = None,
    note: Note = None,
) -> Answer:
    """Put a document aside: it was given back, replaced, or is needed no more."""
    session = session_of(context)
    with session.step(f"papers end {document}") as writer:
        known = document_numbered(writer.book, document)
        day = session.day(on, writer.book)
        new = replace(known, ended=day, note=note or known.note)
        change_document(writer, known, new)
        writer.say(f"papers: put aside {known.name}")
    return said(f"{known.name} is put aside from {day} on; it stays listed", hints=[TAKE_BACK])


def typed(
    session: Session,
    book: Book,
    number: str | None,
    by: str | None,
    issued: str | None,
    until: str | None,
    kept: str | None,
    value: str | None,
    note: str | None,
) -> dict[str, Any]:
    """What was typed of a document, by field; what was not typed is left out."""

    def day(text: str | None) -> date | None:
        return session.day(text, book) if text else None

    fields = {
        "number": number,
        "authority": by,
        "issued": day(issued),
        "until": day(until),
        "kept": kept,
        "value": value,
        "note": note,
    }
    return {name: value for name, value in fields.items() if value is not None}
