"""The keeper's own words for labels: genes, do nots, the kind of danger."""

from __future__ import annotations

from sqlalchemy import select

from warmside.api import Animal, BadInput, Book, LabelLine, NotFound, StepWriter, near_miss, quoted
from warmside.plugins.labels.lookup import Subject
from warmside.plugins.labels.signs import find_hazard
from warmside.plugins.labels.slots import NOTED, note_key
from warmside.plugins.labels.tables import note

LONGEST_NOTE = 400


def checked_slot(slot: str) -> str:
    """The slot that was typed; BadInput for one that has no note."""
    if slot not in NOTED:
        near = near_miss(slot, NOTED)
        raise BadInput(f"no note {quoted(slot)!r}{near}; known are {', '.join(NOTED)}")
    return slot


def checked_text(slot: str, text: str) -> str:
    """A note's text on one line; BadInput for an unknown danger, nothing, or far too much."""
    text = " ".join(text.split())
    if slot == "hazard":
        return find_hazard(text).name
    if not text or len(text) > LONGEST_NOTE:
        raise BadInput(f"a note has 1 to {LONGEST_NOTE} characters, not {len(text)}")
    if not text.isprintable():
        raise BadInput(f"note {quoted(text)!r} holds control characters; type it again")
    return text


def notes(book: Book) -> list[tuple[str, str, int | None, int | None]]:
    """All notes: slot, text, and the animal or enclosure."""
    c = note.c
    query = select(c.slot, c.text, c.animal_id, c.enclosure_id).order_by(c.slot, c.id)
    return [(slot, text, a, e) for slot, text, a, e in book.rows(query)]


def animal_lines(book: Book, animal_id: int) -> list[LabelLine]:
    """The notes about an animal as label lines."""
    return [LabelLine(note_key(slot), text) for slot, text, a, _ in notes(book) if a == animal_id]


def enclosure_lines(book: Book, enclosure_id: int) -> list[LabelLine]:
    """The notes about an enclosure as label lines."""
    return [
        LabelLine(note_key(slot), text) for slot, text, _, e in notes(book) if e == enclosure_id
    ]


def store_note(writer: StepWriter, subject: Subject, slot: str, text: str) -> None:
    """Set or replace the note for a slot of an animal's or an enclosure's labels."""
    known = _stored(writer.book, subject, slot)
    if known is None:
        writer.insert(note, slot=slot, text=text, **_columns(subject))
    else:
        writer.change(note, {"id": known}, text=text)


def drop_note(writer: StepWriter, subject: Subject, slot: str) -> None:
    """Remove a note; NotFound where there is none."""
    known = _stored(writer.book, subject, slot)
    if known is None:
        raise NotFound(f"{subject.code} has no note {slot}; see: warmside labels notes")
    writer.remove(note, {"id": known})


def _columns(subject: Subject) -> dict[str, int | None]:
    of_animal = isinstance(subject, Animal)
    return {
        "animal_id": subject.id if of_animal else None,
        "enclosure_id": None if of_animal else subject.id,
    }


def _stored(book: Book, subject: Subject, slot: str) -> int | None:
    column = note.c.animal_id if isinstance(subject, Animal) else note.c.enclosure_id
    rows = book.rows(select(note.c.id).where(note.c.slot == slot, column == subject.id))
    return rows[0][0] if rows else None
