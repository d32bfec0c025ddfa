"""The description of an enclosure as of a day."""

from __future__ import annotations

from datetime import date

from warmside.api import Book
from warmside.plugins.habitat.described.description_file import read_description
from warmside.plugins.habitat.described.enclosure import Enclosure


def described(book: Book, enclosure_id: int, on: date) -> Enclosure | None:
    """How an enclosure is set up on a day; None where nobody has described it."""
    text = description_text(book, enclosure_id, on)
    if text is None:
        return None
    key = ("habitat", "described", text)
    return book.once(key, lambda: read_description(text, "the description"))


def description_text(book: Book, enclosure_id: int, on: date) -> str | None:
    """The TOML that holds on a day, as the keeper gave it."""
    last = None
    for enclosure, since, text in all_descriptions(book):
        if enclosure == enclosure_id and since <= on:
            last = text
    return last


def all_descriptions(book: Book) -> list[tuple[int, date, str]]:
    """Enclosure, first day and TOML of each description, oldest first."""
    return book.once(("habitat", "descriptions"), lambda: _all_descriptions(book))


def _all_descriptions(book: Book) -> list[tuple[int, date, str]]:
    query = "SELECT enclosure_id, since, text FROM habitat_description ORDER BY since, id"
    return [(e, date.fromisoformat(str(since)), text) for e, since, text in book.rows(query)]
