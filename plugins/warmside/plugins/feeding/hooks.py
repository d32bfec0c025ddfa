"""What the plugin gives to the round, reports, labels and other plugins."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from datetime import date
from typing import TYPE_CHECKING

from warmside.api import (
    About,
    Ask,
    DayRange,
    Event,
    EventKind,
    Finding,
    LabelLine,
    NewEvent,
    Pair,
    Section,
    Task,
    UnknownWord,
    hookimpl,
    sheets,
)
from warmside.plugins.feeding import findings
from warmside.plugins.feeding.kinds import KINDS
from warmside.plugins.feeding.reading import Reading, unknowns
from warmside.plugins.feeding.tasks import making_ready, meals

if TYPE_CHECKING:  # it brings SQLAlchemy, which the round does without
    from warmside.api import StepWriter


@hookimpl
def warmside_event_kinds() -> Iterable[EventKind]:
    """The powder on insects."""
    return KINDS


@hookimpl
def warmside_tasks(ask: Ask, on: date) -> Iterator[Task]:
    """Animals to feed, prey to thaw, feeders to feed, and what winter rests ask for."""
    return meals.tasks(ask, on)


@hookimpl
def warmside_findings(ask: Ask, on: date, about: About | None) -> Iterator[Finding]:
    """Refusals, too little, too much, stock, and what only the keeper can say."""
    yield from findings.findings(ask, on, about)
    yield from unknowns.findings(ask, on, about)


@hookimpl
def warmside_events_recorded(
    ask: Ask, events: tuple[Event, ...], confirmed: bool
) -> Iterable[NewEvent]:
    """Meals that look odd or of a food that is not known are asked about."""
    if any(event.kind == "fed" for event in events):
        from warmside.plugins.feeding.reading.entered import ask_about_meals

        ask_about_meals(ask, events, confirmed=confirmed)
    return ()


@hookimpl
def warmside_unknown_words(
    ask: Ask, words: Mapping[str, Mapping[str, int]]
) -> Iterator[UnknownWord]:
    """Food that is no one class: what a sheet means by it is asked before it is recorded."""
    if "fed.item" in words:
        from warmside.plugins.feeding.reading.entered import strange_food

        yield from strange_food(ask, words["fed.item"])


@hookimpl
def warmside_label_lines(ask: Ask, about: About, on: date) -> Iterator[LabelLine]:
    """Diet and interval, for a sitter."""
    from warmside.plugins.feeding.telling.label import label_lines

    return label_lines(Reading(ask, on, alone=True), about)


@hookimpl
def warmside_report_sections(ask: Ask, about: About, on: date) -> Iterator[Section]:
    """The plan and the energy balance, as their commands give them."""
    from warmside.plugins.feeding.telling.report import sections

    return sections(Reading(ask, on, alone=True), about)


@hookimpl
def warmside_sheet_sections(
    ask: Ask, sheet: sheets.Sheet, about: About, on: date
) -> Iterable[Section]:
    """The diet for a vet; how to thaw and to offer for a sitter."""
    from warmside.plugins.feeding.telling.sheets import for_sitter, for_vet

    reading = Reading(ask, on, alone=True)
    if sheet is sheets.Sheet.VET:
        return for_vet(reading, about)
    return for_sitter(reading, about) if sheet is sheets.Sheet.SITTER else ()


@hookimpl
def warmside_answer(ask: Ask, what: str, about: About | Pair, on: date) -> Iterator[DayRange]:
    """When the next meal is due, and the days of a planned winter rest."""
    from warmside.plugins.feeding.telling.expected import expected

    return expected(Reading(ask, on, alone=True), what, about)


@hookimpl
def warmside_settle(writer: StepWriter, task: Task) -> Iterator[str]:
    """Prey that was thawed and feeders that were fed; meals are settled by their event."""
    thaw_day, load_day = making_ready.thawed_for(task), making_ready.gut_loaded_for(task)
    if thaw_day is not None:
        from warmside.plugins.feeding.tables import thawed

        writer.insert(thawed, day=thaw_day.isoformat())
        yield making_ready.thawed_words(thaw_day)
    if load_day is not None:
        from warmside.plugins.feeding.tables import gut_loaded

        writer.insert(gut_loaded, day=load_day.isoformat())
        yield making_ready.gut_loaded_words(load_day)
