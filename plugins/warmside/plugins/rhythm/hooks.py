"""Tasks and label lines from the keeper's own rhythms."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date

from warmside.api import About, Ask, Book, LabelLine, Task, hookimpl
from warmside.plugins.rhythm import reading
from warmside.plugins.rhythm.intervals.next_time import applying, due
from warmside.plugins.rhythm.tasks import task
from warmside.plugins.rhythm.telling import label_line


@hookimpl
def warmside_tasks(book: Book, ask: Ask, on: date) -> Iterator[Task]:
    """What is due by the keeper's rhythms."""
    known = reading.rhythms(book)
    for kind in reading.kinds(ask):
        for found in due(known, kind.name, reading.subjects(book, kind, on), on):
            yield task(kind, *found, on)


@hookimpl
def warmside_label_lines(book: Book, ask: Ask, about: About) -> Iterator[LabelLine]:
    """The rhythms of an animal or of an enclosure, lived in or empty, for a sitter."""
    known = reading.rhythms(book)
    for kind in reading.kinds(ask):
        if reading.concerns(kind, about):
            for found in applying(known, kind.name, about):
                yield label_line(kind, found)
