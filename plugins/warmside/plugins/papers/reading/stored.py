"""Marks and documents as they are stored."""

from __future__ import annotations

from datetime import date

from warmside.api import Book, NotFound
from warmside.plugins.papers.documents.held import Document, Mark

MARKS = "SELECT id, animal_id, kind, number, place, since, note FROM papers_mark ORDER BY id"
DOCUMENTS = (
    "SELECT id, animal_id, kind, number, authority, issued, until, kept, value, ended, note "
    "FROM papers_document ORDER BY id"
)


def marks(book: Book) -> list[Mark]:
    """All marks, in the order in which they were entered."""
    return book.once(("papers", "marks"), lambda: _marks(book))


def _marks(book: Book) -> list[Mark]:
    return [
        Mark(id, animal, kind, number, place, _day(since), note)
        for id, animal, kind, number, place, since, note in book.rows(MARKS)
    ]


def documents(book: Book) -> list[Document]:
    """All documents, in the order in which they were entered."""
    return book.once(("papers", "documents"), lambda: _documents(book))


def _documents(book: Book) -> list[Document]:
    found = []
    for row in book.rows(DOCUMENTS):
        id, animal, kind, number, authority, issued, until, kept, value, ended, note = row
        days = (_day(issued), _day(until))
        found.append(
            Document(id, animal, kind, number, authority, *days, kept, value, _day(ended), note)
        )
    return found


def marks_of(book: Book, animal: int) -> list[Mark]:
    """The marks of one animal."""
    return [mark for mark in marks(book) if mark.animal == animal]


def documents_of(book: Book, animal: int | None) -> list[Document]:
    """The documents of one animal, or those of the keeper (None)."""
    return [document for document in documents(book) if document.animal == animal]


def mark_numbered(book: Book, number: int) -> Mark:
    """The mark of that row; NotFound where there is none."""
    for mark in marks(book):
        if mark.id == number:
            return mark
    raise NotFound(f"there is no mark {number}; numbers are in: warmside papers list")


def document_numbered(book: Book, number: int) -> Document:
    """The document of that row; NotFound where there is none."""
    for document in documents(book):
        if document.id == number:
            return document
    raise NotFound(f"there is no document {number}; numbers are in: warmside papers list")


def due_documents(book: Book, on: date) -> list[Document]:
    """Documents with an end that are still needed: of the keeper, and of animals here."""
    here = book.animals_here(on)
    return [
        d
        for d in documents(book)
        if d.until is not None and d.is_needed(on) and (d.animal is None or d.animal in here)
    ]


def _day(text: str | None) -> date | None:
    return date.fromisoformat(text) if text else None
