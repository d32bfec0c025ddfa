"""Tasks, findings, expected mass, label lines and the report section of weights."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from datetime import date

from warmside.api import (
    Book,
    Estimate,
    Event,
    EventKind,
    Finding,
    LabelLine,
    NewEvent,
    Refused,
    Section,
    Task,
    hookimpl,
)
from warmside.plugins.weight.due import tasks
from warmside.plugins.weight.entry import doubtful
from warmside.plugins.weight.expecting import expected_on
from warmside.plugins.weight.kinds import CHECKED, KINDS
from warmside.plugins.weight.noticed import findings


@hookimpl
def warmside_event_kinds() -> Iterable[EventKind]:
    """What the keeper says of a weighing that looks odd."""
    return KINDS


@hookimpl
def warmside_tasks(book: Book, on: date) -> Iterator[Task]:
    """Animals to weigh, by their life stage."""
    return tasks(book, on)


@hookimpl
def warmside_findings(book: Book, on: date) -> Iterator[Finding]:
    """Loss, gain, stalled growth, centiles left, and weighings in doubt."""
    return findings(book, on)


@hookimpl
def warmside_events_recorded(
    book: Book, events: tuple[Event, ...], confirmed: bool
) -> Iterator[NewEvent]:
    """Refuse a weighing that looks mistyped; where confirmed, note that it is right."""
    doubts = list(doubtful(book, events))
    if doubts and not confirmed:
        event, doubt = doubts[0]
        more = f" (and {len(doubts) - 1} more in doubt)" if len(doubts) > 1 else ""
        label = book.animals[event.animal_id or 0].label
        raise Refused(
            f"{label}: {doubt.words.said(book.home.display)}{more}; if it is right, add --confirm"
        )
    for event in {e.id: e for e, _ in doubts}.values():
        right = {"weighing": event.id}
        yield NewEvent(CHECKED, event.day, right, event.animal_id, at=event.at)


@hookimpl
def warmside_expected_value(book: Book, what: str, animal_id: int, on: date) -> Iterator[Estimate]:
    """The mass that the last weighings lead one to expect."""
    if what == "mass":
        yield from expected_on(book, animal_id, on)


@hookimpl
def warmside_label_lines(book: Book, animal_id: int, on: date) -> Iterator[LabelLine]:
    """The last weight, and its centile."""
    from warmside.plugins.weight.telling import label_lines

    yield from label_lines(book, book.animals[animal_id], on)


@hookimpl
def warmside_report_sections(book: Book, animal_id: int, on: date) -> Iterator[Section]:
    """The weight, its centile and trend, and the chart."""
    from warmside.plugins.weight.telling import report_section

    yield from report_section(book, book.animals[animal_id], on)
