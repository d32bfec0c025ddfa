"""Kinds, tasks, findings and report sections of families, loans, seasons and eggs."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from datetime import date
from typing import TYPE_CHECKING

from warmside.api import (
    About,
    Ask,
    Book,
    Estimate,
    EventKind,
    Finding,
    Pair,
    Section,
    Task,
    When,
    hookimpl,
    sheets,
)
from warmside.plugins.lineage.findings import close_pair, eggs_late, late_finding, overdue, unfit
from warmside.plugins.lineage.kinds import KINDS
from warmside.plugins.lineage.reading.close_pairs import kinship_answer, pairs_at_hand
from warmside.plugins.lineage.reading.eggs import incubations
from warmside.plugins.lineage.reading.loans import loans_of_animal, running
from warmside.plugins.lineage.reading.season import season_of, seasons
from warmside.plugins.lineage.reading.unfit import unfit_animals
from warmside.plugins.lineage.tasks.of_a_day import all_tasks

if TYPE_CHECKING:
    from warmside.api import StepWriter


@hookimpl
def warmside_event_kinds() -> Iterable[EventKind]:
    """What is agreed on loans, and how young are shared out."""
    return KINDS


@hookimpl
def warmside_tasks(ask: Ask, on: date) -> Iterator[Task]:
    """Loans that are to end; what seasons, eggs and hatchlings ask for."""
    yield from all_tasks(ask, on)


@hookimpl
def warmside_settle(
    writer: StepWriter, ask: Ask, task: Task, value: str, when: When, note: str
) -> Iterator[str]:
    """Eggs that were laid, looked at or hatched, a litter, and a hatchling's sex."""
    from warmside.plugins.lineage.commands.settled import settled

    yield from settled(writer, ask, task, value, when, note)


@hookimpl
def warmside_findings(book: Book, ask: Ask, on: date) -> Iterator[Finding]:
    """Late loans, close kin, unfit animals of a pair, late females, late eggs."""
    late = (overdue(loan, book.animals[loan.animal_id], on) for loan in running(book, on))
    yield from filter(None, late)
    for pair in pairs_at_hand(ask, on):
        dam, sire = book.animals[pair.dam], book.animals[pair.sire]
        limit = float(ask.setting("lineage", "kinship_limit", About(dam.id)))
        yield from filter(None, (close_pair(pair, dam, sire, limit),))
    for animal, gates, how in unfit_animals(ask, on):
        yield unfit(animal, gates, how)
    yield from filter(None, map(late_finding, seasons(ask, on)))
    yield from filter(None, (eggs_late(i, on) for i in incubations(ask, on)))


@hookimpl
def warmside_answer(book: Book, what: str, about: object, on: date) -> Iterator[Estimate]:
    """The kinship of a pair, which is the inbreeding of its young."""
    if what == "kinship" and isinstance(about, Pair):
        yield from kinship_answer(book, about)


@hookimpl
def warmside_report_sections(book: Book, ask: Ask, about: About, on: date) -> Iterator[Section]:
    """The ancestors of an animal, how inbred it is, its loans, her season."""
    from warmside.plugins.lineage.reading.loan_young import young_of_loans
    from warmside.plugins.lineage.telling.loans import loans_section
    from warmside.plugins.lineage.telling.season import season_section
    from warmside.plugins.lineage.telling.section import section

    if about.animal_id is not None:
        yield from section(book, book.animals[about.animal_id])
        if found := loans_of_animal(book, about.animal_id, on):
            yield loans_section(book, young_of_loans(ask, found, on), on)
        if book.animals[about.animal_id].sex != "male":
            yield from season_section(ask, season_of(ask, book.animals[about.animal_id], on), on)


@hookimpl
def warmside_sheet_sections(book: Book, sheet: sheets.Sheet, about: About) -> Iterator[Section]:
    """The ancestors of an animal, for its next owner."""
    from warmside.plugins.lineage.telling.section import section

    if sheet is sheets.Sheet.OWNER and about.animal_id is not None:
        yield from section(book, book.animals[about.animal_id])
