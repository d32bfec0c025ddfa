"""Cases at the head of the round and in the report, and the task of a recheck."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date

from warmside.api import (
    About,
    Book,
    Event,
    EventKind,
    Finding,
    NewEvent,
    Section,
    Task,
    hookimpl,
)
from warmside.plugins.health import reading
from warmside.plugins.health.cases.course_of_case import cases, recheck
from warmside.plugins.health.cases.refusing import refuse_impossible
from warmside.plugins.health.kinds import KINDS
from warmside.plugins.health.telling import finding, recheck_task, table


@hookimpl
def warmside_event_kinds() -> tuple[EventKind, ...]:
    """The entries of a case."""
    return KINDS


@hookimpl
def warmside_events_recorded(book: Book, events: tuple[Event, ...]) -> tuple[NewEvent, ...]:
    """Entries that cannot be are refused."""
    for code, entries, new in reading.touched(book, events):
        refuse_impossible(code, entries, new)
    return ()


@hookimpl
def warmside_findings(book: Book, on: date, about: About | None) -> Iterator[Finding]:
    """Each case until it is closed."""
    for animal, case in reading.open_cases(book, on, about):
        yield finding(animal, book.animals[animal].code, case)


@hookimpl
def warmside_tasks(book: Book, on: date) -> Iterator[Task]:
    """The rechecks that are due."""
    for animal, case in reading.open_cases(book, on):
        named = recheck(case, reading.seen_by_vet(book, animal, on))
        task = recheck_task(animal, named) if named else None
        if task is not None and task.due <= on:
            yield task


@hookimpl
def warmside_report_sections(book: Book, about: About, on: date) -> Iterator[Section]:
    """The cases of an animal."""
    if about.animal_id is not None:
        run = cases(reading.entries_of(book, about.animal_id, on))
        if run:
            yield Section("Cases of illness", (table(run),), 290)
