"""What the plugin gives to the round, reports and labels."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from datetime import date

from warmside.api import Book, EventKind, Finding, LabelLine, Section, Task, hookimpl
from warmside.plugins.feeding import due, noticed
from warmside.plugins.feeding.kinds import KINDS
from warmside.plugins.feeding.plan import plan
from warmside.plugins.feeding.reading import Reading


@hookimpl
def warmside_event_kinds() -> Iterable[EventKind]:
    """The powder on insects."""
    return KINDS


@hookimpl
def warmside_tasks(book: Book, on: date) -> Iterator[Task]:
    """Animals to feed, and prey to thaw."""
    return due.tasks(book, on)


@hookimpl
def warmside_findings(book: Book, on: date) -> Iterator[Finding]:
    """Refusals, too little, too much, stock."""
    return noticed.findings(book, on)


@hookimpl
def warmside_label_lines(book: Book, animal_id: int, on: date) -> Iterator[LabelLine]:
    """Diet and interval, for a sitter."""
    reading = Reading(book, on)
    subject = reading.subject(animal_id, ask=False)
    if subject is None:
        return
    found = plan(subject, on, reading.rules)
    low, high = found.interval.low, found.interval.high
    every = f"{low:g}" if low == high else f"{low:g} to {high:g}"
    best = found.fits[0] if found.fits else None
    food = f"{best.count} × {best.prey.name}" if best else subject.species.diet.value
    yield LabelLine("feeding.diet", f"{food} every {every} days")


@hookimpl
def warmside_report_sections(book: Book, animal_id: int, on: date) -> Iterator[Section]:
    """The plan and the energy balance, as their commands give them."""
    from warmside.plugins.feeding import balance_told, plan_told

    reading = Reading(book, on)
    parts = plan_told.parts(reading, animal_id)
    yield Section("Feeding", parts, 300)
    balanced = balance_told.parts(reading, animal_id)
    if balanced:
        yield Section("Energy balance", balanced, 310)
