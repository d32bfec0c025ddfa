"""Cases at the head of the round and in the report, rechecks, and the doses of courses."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date

from warmside.api import (
    About,
    Book,
    Doubtful,
    Event,
    EventKind,
    Finding,
    NewEvent,
    Section,
    Task,
    hookimpl,
)
from warmside.plugins.health.cases.course_of_case import recheck
from warmside.plugins.health.cases.refusing import refuse_impossible
from warmside.plugins.health.findings.cases import open_case
from warmside.plugins.health.kinds import BOTTLE, COURSE, KINDS, TREATED
from warmside.plugins.health.reading import cases
from warmside.plugins.health.reading.courses import courses_here, wall_now
from warmside.plugins.health.tasks.recheck import recheck_task


@hookimpl
def warmside_event_kinds() -> tuple[EventKind, ...]:
    """The entries of a case, orders, and bottles."""
    return KINDS


@hookimpl
def warmside_events_recorded(
    book: Book, events: tuple[Event, ...], confirmed: bool
) -> tuple[NewEvent, ...]:
    """Entries and orders that cannot be are refused; odd orders and doses are asked about."""
    for code, entries, new in cases.touched(book, events):
        refuse_impossible(code, entries, new)
    if any(e.kind in (COURSE, BOTTLE, TREATED) for e in events):
        from warmside.plugins.health.reading.entered import doubts_of

        doubts = list(doubts_of(book, events))
        if doubts and not confirmed:
            raise Doubtful("; ".join(doubts))
    return ()


@hookimpl
def warmside_findings(book: Book, on: date, about: About | None) -> Iterator[Finding]:
    """Each case until it is closed, and what is wrong in courses."""
    for animal, case in cases.open_cases(book, on, about):
        yield open_case(animal, book.animals[animal].code, case)
    for animal, courses in courses_here(book, on, about):
        from warmside.plugins.health.findings.of_courses import findings_of

        yield from findings_of(book, animal, courses, on)


@hookimpl
def warmside_tasks(book: Book, on: date) -> Iterator[Task]:
    """The rechecks that are due, and the doses of the day."""
    for animal, case in cases.open_cases(book, on):
        named = recheck(case, cases.seen_by_vet(book, animal, on))
        task = recheck_task(animal, named) if named else None
        if task is not None and task.due <= on:
            yield task
    for animal, courses in courses_here(book, on):
        from warmside.plugins.health.tasks.doses import dose_tasks

        for course in courses:
            yield from dose_tasks(animal, course, on, book.home.zone, wall_now(book, on))


@hookimpl
def warmside_report_sections(book: Book, about: About, on: date) -> Iterator[Section]:
    """The cases of an animal, and its courses."""
    from warmside.plugins.health.telling.sections import sections

    if about.animal_id is not None:
        yield from sections(book, about.animal_id, on)
