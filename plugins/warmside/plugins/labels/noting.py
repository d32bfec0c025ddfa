"""`warmside labels note` and `notes`: the keeper's own words for labels."""

from __future__ import annotations

from typing import Annotated

import typer

from warmside.api import Answer, BadInput, Column, Kind, Table, said, session_of
from warmside.plugins.labels.lookup import subject_of
from warmside.plugins.labels.notes import (
    checked_slot,
    checked_text,
    drop_note,
    notes,
    store_note,
)
from warmside.plugins.labels.slots import NOTED, note_key

COLUMNS = (
    Column("subject", "of", Kind.CODE),
    Column("name", "name"),
    Column("note", "note"),
    Column("text", "text"),
    Column("key", "line", Kind.CODE, text=False),
)


def set_note(
    context: typer.Context,
    subject: Annotated[str, typer.Argument(help="Animal or enclosure, by code or name.")],
    note: Annotated[str, typer.Argument(help=", ".join(NOTED))],
    text: Annotated[str | None, typer.Argument(help="The words.")] = None,
    drop: Annotated[bool, typer.Option("--drop", help="Remove the note.")] = False,
) -> Answer:
    """Keep your own words for somebody's labels."""
    session = session_of(context)
    slot = checked_slot(note.strip().lower())
    if drop is (text is not None):
        raise BadInput("give the words of the note, or --drop to remove it")
    words = checked_text(slot, text) if text is not None else ""
    with session.step(f"label note {slot}") as writer:
        about = subject_of(writer.book, subject)
        if drop:
            drop_note(writer, about, slot)
        else:
            store_note(writer, about, slot, words)
        told = f"dropped note {slot} of {about.code}" if drop else f"{about.code}: {slot} {words}"
        writer.say(f"labels: {told}")
    return said(told, hints=["warmside undo (take it back)"])


def list_notes(context: typer.Context) -> Answer:
    """List the notes for labels."""
    with session_of(context).read() as book:
        rows = []
        for slot, text, animal_id, enclosure_id in notes(book):
            about = (
                book.animals[animal_id]
                if animal_id is not None
                else book.enclosures[enclosure_id or 0]
            )
            rows.append((about.code, about.name, slot, text, note_key(slot)))
    kinds = tuple((slot, meaning) for slot, meaning in NOTED.items())
    can = Table("can_note", (Column("note", "note"), Column("meaning", "what for")), kinds)
    empty = "no note yet; keep one: warmside labels note CODE genes WORDS"
    return Answer(
        "Notes for labels", (Table("label_notes", COLUMNS, tuple(rows), empty=empty), can)
    )
