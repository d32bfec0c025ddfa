"""Report sections of families."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date

from warmside.api import About, Book, Section, hookimpl


@hookimpl
def warmside_report_sections(book: Book, about: About, on: date) -> Iterator[Section]:
    """The ancestors of an animal, and how inbred it is."""
    from warmside.plugins.lineage.telling.section import section

    if about.animal_id is not None:
        yield from section(book, book.animals[about.animal_id])
