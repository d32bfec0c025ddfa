"""Cases at the head of the round and in the report, rechecks, and the doses of courses.

Most herds have nobody ill: what speaks of an illness is imported where one is on record.
"""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date

from warmside.api import (
    About,
    Ask,
    Book,
    DayRange,
    Event,
    EventKind,
    Finding,
    NewEvent,
    Pair,
    Section,
    Task,
    hookimpl,
    sheets,
)
from warmside.plugins.health.kinds import KINDS
from warmside.plugins.health.reading.ill import ill


@hookimpl
def warmside_event_kinds() -> tuple[EventKind, ...]:
    """The entries of a case, orders, bottles, and a vet's word on food."""
    return KINDS


@hookimpl
def warmside_events_recorded(
    book: Book, events: tuple[Event, ...], confirmed: bool
) -> tuple[NewEvent, ...]:
    """What cannot be is refused and what is odd asked about; signs and visits begin cases."""
    from warmside.plugins.health.reading.entered import brought

    return brought(book, events, confirmed=confirmed)


@hookimpl
def warmside_findings(ask: Ask, on: date, about: About | None) -> Iterator[Finding]:
    """Each case until it is closed, what is wrong in courses, who is not fed by its plan."""
    for animal in ill(ask.book, on, about):
        from warmside.plugins.health.findings.gathered import findings_of

        yield from findings_of(ask, animal, on)


@hookimpl
def warmside_tasks(book: Book, on: date) -> Iterator[Task]:
    """The rechecks that are due, and the doses of the day."""
    for animal in ill(book, on):
        from warmside.plugins.health.tasks.gathered import tasks_of

        yield from tasks_of(book, animal, on)


@hookimpl
def warmside_report_sections(book: Book, about: About, on: date) -> Iterator[Section]:
    """The cases of an animal, and its courses."""
    from warmside.plugins.health.telling.sections import sections

    if about.animal_id is not None:
        yield from sections(book, about.animal_id, on)


@hookimpl
def warmside_sheet_sections(
    book: Book, sheet: sheets.Sheet, about: About, on: date, until: date
) -> Iterator[Section]:
    """Cases and courses for a vet; how medicines are given for a sitter."""
    from warmside.plugins.health.reading.on_sheets import for_vet, medicines

    if sheet is sheets.Sheet.VET and about.animal_id is not None:
        yield from for_vet(book, about.animal_id, on)
    elif sheet is sheets.Sheet.SITTER:
        yield from medicines(book, on, until)


@hookimpl
def warmside_answer(book: Book, what: str, about: About | Pair, on: date) -> Iterator[DayRange]:
    """The days of a treatment, and while an animal is fed as a vet said and not by its plan."""
    from warmside.plugins.health.telling.answered import answered

    if isinstance(about, About) and about.animal_id is not None:
        yield from answered(book, what, about.animal_id, on)
