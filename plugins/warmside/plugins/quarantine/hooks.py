"""The quarantine plugin's part in the round, in records, labels and reports."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from datetime import date
from typing import TYPE_CHECKING

from warmside.api import (
    About,
    Ask,
    Book,
    CareRank,
    Event,
    EventKind,
    Finding,
    LabelLine,
    NewEvent,
    Section,
    Task,
    When,
    hookimpl,
    sheets,
)
from warmside.plugins.quarantine.findings.coming import newcomer
from warmside.plugins.quarantine.findings.company import company_findings
from warmside.plugins.quarantine.findings.course import (
    LONG,
    findings_of,
    not_computed,
)
from warmside.plugins.quarantine.findings.deaths import death_finding
from warmside.plugins.quarantine.findings.handling import handling_findings
from warmside.plugins.quarantine.findings.positives import positive_findings
from warmside.plugins.quarantine.kinds import KINDS
from warmside.plugins.quarantine.reading.coming import to_begin, uncovered
from warmside.plugins.quarantine.reading.company import company, handlings
from warmside.plugins.quarantine.reading.mourned import mourned
from warmside.plugins.quarantine.reading.standing import (
    courses,
    positives,
    quarantines_of,
    troubles,
)
from warmside.plugins.quarantine.reading.stored import protocols
from warmside.plugins.quarantine.reading.tool_groups import group_names, groups
from warmside.plugins.quarantine.tasks import tasks_of
from warmside.plugins.quarantine.telling.care import care_ranks
from warmside.plugins.quarantine.telling.labels import label_lines

if TYPE_CHECKING:  # writing needs SQLAlchemy, for which the round would wait
    from warmside.api import StepWriter


@hookimpl
def warmside_event_kinds() -> Iterable[EventKind]:
    """The kinds of a quarantine."""
    return KINDS


@hookimpl
def warmside_events_recorded(ask: Ask, events: tuple[Event, ...]) -> list[NewEvent]:
    """Impossible records are refused; a quarantine begins for each animal that came."""
    from warmside.plugins.quarantine.entry.beginning import start
    from warmside.plugins.quarantine.entry.refusing import refuse_impossible
    from warmside.plugins.quarantine.reading.entered import entered

    for record in entered(ask, events):
        refuse_impossible(record)
    return [start(came, protocol) for came, protocol in to_begin(ask, events)]


@hookimpl
def warmside_tasks(ask: Ask, on: date) -> Iterator[Task]:
    """What quarantines ask for."""
    for animal, state in courses(ask, on):
        yield from tasks_of(animal, state, on, ask.book.today)


@hookimpl
def warmside_settle(
    writer: StepWriter, ask: Ask, task: Task, value: str, when: When, note: str
) -> Iterator[str]:
    """An animal that is released into the enclosure that was typed."""
    from warmside.plugins.quarantine.commands.release import released

    if value and "release" in task.data:
        yield released(writer, ask, task.data["release"], value, when, note)


@hookimpl
def warmside_care_order(ask: Ask, on: date) -> Iterator[CareRank]:
    """Enclosures with an animal in quarantine come last."""
    return care_ranks(groups(ask, on))


@hookimpl
def warmside_findings(ask: Ask, on: date, about: About | None) -> Iterator[Finding]:
    """What the keeper should know of quarantines."""
    for animal, state in courses(ask, on, about):
        yield from findings_of(animal, state, protocols(ask)[LONG])
    yield from (not_computed(animal, words) for animal, words in troubles(ask, on, about))
    yield from company_findings(*company(ask, on, about), on)
    yield from handling_findings(handlings(ask, on, about), on)
    for animal, came, protocol in uncovered(ask, on, about):
        yield newcomer(animal, came, protocol.sources["days"])
    yield from positive_findings(positives(ask, on, about))
    for death, whom in mourned(ask, on, about):
        elsewhere = bool(ask.answers("after a death", About(death.animal.id), on))
        yield death_finding(death, on, whom, body_told=elsewhere)


@hookimpl
def warmside_label_lines(ask: Ask, about: About, on: date) -> Iterator[LabelLine]:
    """The quarantine of an animal, or of those in an enclosure, for a label and for a sign."""
    names = group_names(ask, on)
    return label_lines([(names[animal.id], state) for animal, state in courses(ask, on, about)])


@hookimpl
def warmside_report_sections(ask: Ask, about: About, on: date) -> Iterator[Section]:
    """The animal's quarantines, or those of the animals in the enclosure, with their timeline."""
    from warmside.plugins.quarantine.telling.sections import animal_section, enclosure_section

    if about.animal_id is not None:
        states = quarantines_of(ask, about.animal_id, on)
        if states:
            yield animal_section(ask.book.animals[about.animal_id].code, states, on)
    else:
        rows = [(animal.code, state) for animal, state in courses(ask, on, about)]
        if rows:
            yield enclosure_section(rows, on)


@hookimpl
def warmside_sheet_sections(
    ask: Ask, sheet: sheets.Sheet, about: About, on: date
) -> Iterator[Section]:
    """Where the newest quarantine of an animal stands, for a vet."""
    from warmside.plugins.quarantine.telling.for_vet import section

    if sheet is sheets.Sheet.VET and about.animal_id is not None:
        yield from section(quarantines_of(ask, about.animal_id, on))


@hookimpl
def warmside_check(book: Book, ask: Ask) -> Iterator[str]:
    """Stored protocols and figures that cannot be read, results without their sample."""
    from warmside.plugins.quarantine.reading.sound import own_problems

    return own_problems(book, ask)
