"""Cases at the head of the round, doses, visits, samples; whom to call; what a death asks.

Most herds have nobody ill: what speaks of an illness is imported where one is on record.
"""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date
from typing import TYPE_CHECKING

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
    When,
    hookimpl,
    sheets,
)
from warmside.plugins.health.kinds import KINDS
from warmside.plugins.health.reading.ill import (
    anything_awaited,
    ill,
    lately_died,
    long_here,
)

if TYPE_CHECKING:
    from warmside.api import StepWriter


@hookimpl
def warmside_event_kinds() -> tuple[EventKind, ...]:
    """Entries of cases, orders, bottles, a vet's word on food, visits, samples, after a death."""
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
def warmside_tasks(book: Book, ask: Ask, on: date) -> Iterator[Task]:
    """Rechecks, doses, appointments, results to ask for, faecal checks, what a death asks."""
    for animal in ill(book, on):
        from warmside.plugins.health.tasks.gathered import tasks_of

        yield from tasks_of(book, animal, on)
    if anything_awaited(book, on):
        from warmside.plugins.health.tasks.gathered import appointed

        yield from appointed(book, on)
    if lately_died(book, on):
        from warmside.plugins.health.tasks.gathered import after_deaths

        yield from after_deaths(book, on)
    if next(long_here(ask, on), None):
        from warmside.plugins.health.tasks.gathered import yearly_checks

        yield from yearly_checks(ask, on)


@hookimpl
def warmside_settle(
    writer: StepWriter, task: Task, value: str, when: When, note: str
) -> Iterator[str]:
    """The answer to a question after a death."""
    from warmside.plugins.health.commands.settled import settled

    yield from settled(writer, task, value, when, note)


@hookimpl
def warmside_report_sections(book: Book, about: About, on: date) -> Iterator[Section]:
    """The cases of an animal, its courses, visits to come, samples; what followed its death."""
    from warmside.plugins.health.telling.sections import sections

    if about.animal_id is not None:
        yield from sections(book, about.animal_id, on)


@hookimpl
def warmside_sheet_sections(
    book: Book, sheet: sheets.Sheet, about: About, on: date, until: date
) -> Iterator[Section]:
    """Cases and courses for a vet; how medicines are given for a sitter; which vet to call."""
    from warmside.plugins.health.reading.on_sheets import for_vet, medicines, to_call

    if sheet is sheets.Sheet.VET and about.animal_id is not None:
        yield from for_vet(book, about.animal_id, on)
    elif sheet is sheets.Sheet.SITTER:
        yield from to_call(book)
        yield from medicines(book, about.animal_id, on, until)
    elif sheet is sheets.Sheet.EMERGENCY:
        yield from to_call(book)


@hookimpl
def warmside_answer(book: Book, what: str, about: About | Pair, on: date) -> Iterator[DayRange]:
    """The days of a treatment, of feeding as a vet said, and of what follows a death."""
    from warmside.plugins.health.telling.answered import answered

    if isinstance(about, About) and about.animal_id is not None:
        yield from answered(book, what, about.animal_id, on)
