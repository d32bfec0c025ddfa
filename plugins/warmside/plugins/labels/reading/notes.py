"""The keeper's own words for labels, as they are kept."""

from __future__ import annotations

from typing import NamedTuple

from warmside.api import About, Book, LabelLine
from warmside.plugins.labels.content.slots import note_key


class Note(NamedTuple):
    """What the keeper noted for one slot of an animal's or an enclosure's labels."""

    id: int
    slot: str
    text: str
    about: About


def notes(book: Book) -> list[Note]:
    """All notes, by slot."""

    def make() -> list[Note]:
        sql = "SELECT id, slot, text, animal_id, enclosure_id FROM labels_note ORDER BY slot, id"
        return [Note(id, slot, text, About(a, e)) for id, slot, text, a, e in book.rows(sql)]

    return book.once(("labels", "notes"), make)


def note_lines(book: Book, about: About) -> list[LabelLine]:
    """The notes about an animal or an enclosure as label lines."""
    return [LabelLine(note_key(n.slot), n.text) for n in notes(book) if n.about == about]


def note_of(book: Book, about: About, slot: str) -> Note | None:
    """The note for a slot of somebody's labels, if there is one."""
    return next((n for n in notes(book) if n.about == about and n.slot == slot), None)
