"""`warmside labels note` and `notes`: the keeper's own words for labels."""

from __future__ import annotations

from typing import Annotated

import typer

from warmside.api import Answer, BadInput, said, session_of
from warmside.plugins.labels.commands.keeping import drop_note, store_note
from warmside.plugins.labels.content.noted import checked_slot, checked_text
from warmside.plugins.labels.content.slots import NOTED
from warmside.plugins.labels.reading.notes import notes
from warmside.plugins.labels.reading.subject import about_of, subject_of
from warmside.plugins.labels.telling.lists import told_notes


def set_note(
    context: typer.Context,
    subject: Annotated[str, typer.Argument(help="Animal or enclosure, by code or name.")],
    note: Annotated[str, typer.Argument(help=", ".join(NOTED))],
    text: Annotated[str | None, typer.Argument(help="The words.")] = None,
    drop: Annotated[bool, typer.Option("--drop", help="Remove the note.")] = False,
) -> Answer:
    """Keep your own words for somebody's labels."""
    slot = checked_slot(note.strip().lower())
    if drop is (text is not None):
        raise BadInput("give the words of the note, or --drop to remove it")
    words = checked_text(slot, text) if text is not None else ""
    with session_of(context).step(f"label note {slot}") as writer:
        whom = subject_of(writer.book, subject)
        if drop:
            drop_note(writer, about_of(whom), slot, whom.code)
        else:
            store_note(writer, about_of(whom), slot, words)
        told = f"dropped note {slot} of {whom.code}" if drop else f"{whom.code}: {slot} {words}"
        writer.say(f"labels: {told}")
    return said(told, hints=["warmside undo (take it back)"])


def list_notes(context: typer.Context) -> Answer:
    """List the notes for labels."""
    with session_of(context).read() as book:
        return told_notes(book, notes(book))
