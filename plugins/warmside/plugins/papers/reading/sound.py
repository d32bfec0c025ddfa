"""What is wrong in what is stored, for the check of the file."""

from __future__ import annotations

from collections.abc import Iterator

from warmside.api import BadInput, Book
from warmside.plugins.papers.numbers.transponder import read_transponder
from warmside.plugins.papers.reading.stored import documents, marks


def wrong(book: Book) -> Iterator[str]:
    """A line for each transponder that cannot be, and for each document that ends too early."""
    for mark in marks(book):
        if mark.kind == "transponder":
            try:
                read_transponder(mark.number)
            except BadInput as error:
                yield f"mark {mark.id}: {error}"
    for document in documents(book):
        if document.issued and document.until and document.until < document.issued:
            yield f"document {document.id} ends before it began"
