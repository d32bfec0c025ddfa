"""Reminders, marks on labels and sheets, the report's section."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date
from typing import TYPE_CHECKING

from warmside.api import About, Ask, Book, Finding, LabelLine, Section, Task, hookimpl, sheets
from warmside.plugins.papers.findings import ended
from warmside.plugins.papers.reading.stored import (
    documents,
    due_documents,
    marks_of,
)
from warmside.plugins.papers.tasks import see_to

if TYPE_CHECKING:  # writing needs SQLAlchemy, for which the round would wait
    from warmside.api import StepWriter


@hookimpl
def warmside_tasks(book: Book, ask: Ask, on: date) -> Iterator[Task]:
    """Documents that are about to end."""
    notice = float(ask.setting("papers", "notice_days"))
    yield from filter(None, (see_to(d, notice, on) for d in due_documents(book, on)))


@hookimpl
def warmside_settle(writer: StepWriter, task: Task, value: str) -> Iterator[str]:
    """A document that holds longer now."""
    from warmside.plugins.papers.commands.keeping import prolonged

    if value:
        yield prolonged(writer, task.data["document"], value)


@hookimpl
def warmside_findings(book: Book, on: date, about: About | None) -> Iterator[Finding]:
    """Documents that are over."""
    for document in due_documents(book, on):
        if about is None or about.animal_id == document.animal:
            yield from filter(None, (ended(document, on),))


@hookimpl
def warmside_label_lines(book: Book, about: About) -> Iterator[LabelLine]:
    """By what marks an animal is known, for labels and sheets."""
    if about.animal_id is not None:
        for mark in marks_of(book, about.animal_id):
            yield LabelLine("papers.identifier", mark.words)


@hookimpl
def warmside_report_sections(ask: Ask, about: About, on: date) -> Iterator[Section]:
    """The marks, documents and origin of an animal."""
    from warmside.plugins.papers.telling.papers import section

    if about.animal_id is not None:
        yield from section(ask, about.animal_id, on)


@hookimpl
def warmside_sheet_sections(
    ask: Ask, sheet: sheets.Sheet, about: About, on: date
) -> Iterator[Section]:
    """Where the papers lie, for an emergency; those of an animal for its next owner."""
    from warmside.plugins.papers.telling.papers import lying, section

    if sheet is sheets.Sheet.EMERGENCY:
        yield from lying([d for d in documents(ask.book) if d.is_needed(on)])
    elif sheet is sheets.Sheet.OWNER and about.animal_id is not None:
        yield from section(ask, about.animal_id, on)


@hookimpl
def warmside_check(book: Book) -> Iterator[str]:
    """Documents and marks that cannot be."""
    from warmside.plugins.papers.reading.sound import wrong

    return wrong(book)
