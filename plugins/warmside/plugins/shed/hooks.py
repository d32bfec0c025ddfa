"""Kinds, tasks, findings, the days to the slough, label lines and report sections of sheds."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from datetime import date

from warmside.api import (
    About,
    Ask,
    Book,
    Doubtful,
    Estimate,
    Event,
    EventKind,
    Finding,
    LabelLine,
    NewEvent,
    Section,
    Task,
    hookimpl,
)
from warmside.plugins.shed.findings import finding_of_overdue, findings
from warmside.plugins.shed.kinds import KINDS
from warmside.plugins.shed.reading.ahead import between_sheds, overdue_among, usual_ahead
from warmside.plugins.shed.reading.sheds import (
    last_examined,
    new_doubts,
    newest_here,
    sheds_of,
    sheds_within,
)
from warmside.plugins.shed.tasks import tasks


@hookimpl
def warmside_event_kinds() -> Iterable[EventKind]:
    """What is done before a shed and looked at after it."""
    return KINDS


@hookimpl
def warmside_tasks(book: Book, ask: Ask, on: date) -> Iterator[Task]:
    """What the stages and sheds of the animals here ask for."""
    recheck_every = ask.setting("shed", "recheck_every")
    for sheds in newest_here(book, on):
        yield from tasks(sheds, recheck_every)


@hookimpl
def warmside_findings(book: Book, ask: Ask, on: date, about: About | None) -> Iterator[Finding]:
    """Skin left on, late stages, overdue sheds and doubts about the record."""
    newest = newest_here(book, on, about)
    overdue = overdue_among(ask, newest, on)
    for sheds in newest:
        id = sheds.rows.animal_id
        yield from findings(sheds, last_examined(book, id, on))
        yield from finding_of_overdue(sheds, overdue.get(id))


@hookimpl
def warmside_events_recorded(
    book: Book, events: tuple[Event, ...], confirmed: bool
) -> Iterable[NewEvent]:
    """Refuse a stage out of order and a shed dated twice, unless the keeper confirmed it."""
    for animal, doubt in () if confirmed else new_doubts(book, events):
        raise Doubtful(f"{animal.label}: {doubt.words}")
    return ()


@hookimpl
def warmside_answer(book: Book, ask: Ask, what: str, about: object, on: date) -> Iterator[Estimate]:
    """The days until the next shed, between two sheds; within a cycle its stages speak."""
    if what == "days to slough" and isinstance(about, About) and about.animal_id is not None:
        found = between_sheds(ask, book.animals[about.animal_id], on)
        yield from () if found is None else (found,)


@hookimpl
def warmside_label_lines(book: Book, ask: Ask, about: About, on: date) -> Iterator[LabelLine]:
    """The last shed of an animal, its stage, and when the next shed is to be expected."""
    from warmside.plugins.shed.telling.sheds import label_lines

    if about.animal_id is not None:
        sheds = sheds_of(book, book.animals[about.animal_id], on)
        yield from label_lines(sheds, usual_ahead(ask, sheds))


@hookimpl
def warmside_report_sections(book: Book, ask: Ask, about: About, on: date) -> Iterator[Section]:
    """An animal's stage, next shed and cycles; a line for each that lives in an enclosure."""
    from warmside.plugins.shed.telling.sheds import section_of_animal, section_of_enclosure

    if about.animal_id is not None:
        sheds = sheds_of(book, book.animals[about.animal_id], on)
        yield from section_of_animal(sheds, usual_ahead(ask, sheds))
    elif about.enclosure_id is not None:
        within = sheds_within(book, about.enclosure_id, on)
        yield from section_of_enclosure([(s, usual_ahead(ask, s)) for s in within])
