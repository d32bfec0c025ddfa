"""Kinds, tasks, findings, label lines and the report section of sheds."""

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
from warmside.plugins.shed.animal_sheds import AnimalSheds
from warmside.plugins.shed.cycle import doubts_about
from warmside.plugins.shed.due import tasks
from warmside.plugins.shed.kinds import KINDS
from warmside.plugins.shed.newest import noted
from warmside.plugins.shed.next_shed import days_to_slough, may_be_overdue, next_shed, overdue
from warmside.plugins.shed.notices import findings, overdue_finding
from warmside.plugins.shed.reading import STAGE_KINDS, newest_here, prior_of, seen_in, sheds_of


@hookimpl
def warmside_event_kinds() -> Iterable[EventKind]:
    """What is done before a shed and looked at after it."""
    return KINDS


@hookimpl
def warmside_tasks(book: Book, on: date) -> Iterator[Task]:
    """What the stages and sheds of the animals here ask for."""
    recheck_every = book.setting("shed", "recheck_every")
    for sheds in newest_here(book, on):
        yield from tasks(sheds, recheck_every)


@hookimpl
def warmside_findings(book: Book, on: date) -> Iterator[Finding]:
    """Skin left on, late stages, overdue sheds and doubts about the record."""
    last = book.latest("examined", "cooling", on=on)
    for sheds in newest_here(book, on):
        vet = last["examined"].get(sheds.rows.animal_id)
        yield from findings(sheds, vet.day if vet else None)
        cooling = last["cooling"].get(sheds.rows.animal_id)
        if not (cooling and cooling.data["state"] == "begun"):
            yield from _overdue(book, sheds, on)


def _overdue(book: Book, sheds: AnimalSheds, on: date) -> Iterator[Finding]:
    """Between two sheds only: within a cycle its stages speak. Slough eaters shed unseen."""
    if sheds.rows.eats_slough or sheds.now.stage is not None:
        return
    animal = book.animals[sheds.rows.animal_id]
    prior = prior_of(book, animal.hatched, on)
    if not may_be_overdue(sheds.history, on, prior):
        return
    born = animal.hatched.earliest if animal.hatched else None
    found = overdue(sheds_of(book, animal, on).history, on, prior, born)
    if found is not None:
        yield overdue_finding(sheds, found)


@hookimpl
def warmside_events_recorded(
    book: Book, events: tuple[Event, ...], confirmed: bool
) -> Iterable[NewEvent]:
    """Refuse a stage out of order and a shed dated twice, unless the keeper confirmed it."""
    new = {e.id for e in events if e.kind in STAGE_KINDS}
    animals = {e.animal_id for e in events if e.id in new and not confirmed}
    for animal_id in sorted(a for a in animals if a is not None):
        seen = seen_in(noted(e) for e in book.events(*STAGE_KINDS, animal=animal_id))
        for doubt in doubts_about(seen, new):
            name = book.animals[animal_id].label
            raise Refused(f"{name}: {doubt.words}; if it is right, add --confirm")
    return ()


@hookimpl
def warmside_expected_value(book: Book, what: str, animal_id: int, on: date) -> Iterator[Estimate]:
    """The days until the next shed, between two sheds; within a cycle its stages speak."""
    if what != "days to slough":
        return
    animal = book.animals[animal_id]
    sheds = sheds_of(book, animal, on)
    born = animal.hatched.earliest if animal.hatched else None
    found = next_shed(sheds.history, on, prior_of(book, animal.hatched, on), born)
    if found is not None and sheds.now.stage is None and not sheds.rows.eats_slough:
        yield days_to_slough(found, on)


@hookimpl
def warmside_label_lines(book: Book, animal_id: int, on: date) -> Iterator[LabelLine]:
    """The last shed, the stage, and when the next shed is to be expected."""
    from warmside.plugins.shed.telling import label_lines

    yield from label_lines(book, sheds_of(book, book.animals[animal_id], on), on)


@hookimpl
def warmside_report_sections(book: Book, animal_id: int, on: date) -> Iterator[Section]:
    """The stage, the next shed, and the cycles on record."""
    from warmside.plugins.shed.telling import report_section

    sheds = sheds_of(book, book.animals[animal_id], on)
    if sheds.rows.seen:
        yield report_section(book, sheds, on)
