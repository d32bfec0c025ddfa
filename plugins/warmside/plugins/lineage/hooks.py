"""Kinds, tasks, findings and report sections of families and loans."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from datetime import date

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
    hookimpl,
)
from warmside.plugins.lineage.findings import close_pair, overdue
from warmside.plugins.lineage.kinds import KINDS
from warmside.plugins.lineage.reading.close_pairs import kinship_answer, pairs_at_hand
from warmside.plugins.lineage.reading.loans import loans_of_animal, running
from warmside.plugins.lineage.tasks import back_task


@hookimpl
def warmside_event_kinds() -> Iterable[EventKind]:
    """What is agreed on loans, and how young are shared out."""
    return KINDS


@hookimpl
def warmside_tasks(book: Book, ask: Ask, on: date) -> Iterator[Task]:
    """Loans that are to end."""
    notice = int(ask.setting("lineage", "back_notice"))
    tasks = (back_task(loan, book.animals[loan.animal_id], notice) for loan in running(book, on))
    return filter(None, tasks)


@hookimpl
def warmside_findings(book: Book, ask: Ask, on: date) -> Iterator[Finding]:
    """Loans that should have ended, and pairs that are close kin."""
    late = (overdue(loan, book.animals[loan.animal_id], on) for loan in running(book, on))
    yield from filter(None, late)
    for pair in pairs_at_hand(ask, on):
        dam, sire = book.animals[pair.dam], book.animals[pair.sire]
        limit = float(ask.setting("lineage", "kinship_limit", About(dam.id)))
        yield from filter(None, (close_pair(pair, dam, sire, limit),))


@hookimpl
def warmside_answer(book: Book, what: str, about: object, on: date) -> Iterator[Estimate]:
    """The kinship of a pair, which is the inbreeding of its young."""
    if what == "kinship" and isinstance(about, Pair):
        yield from kinship_answer(book, about)


@hookimpl
def warmside_report_sections(book: Book, ask: Ask, about: About, on: date) -> Iterator[Section]:
    """The ancestors of an animal, how inbred it is, and its loans."""
    from warmside.plugins.lineage.reading.loan_young import young_of_loans
    from warmside.plugins.lineage.telling.loans import loans_section
    from warmside.plugins.lineage.telling.section import section

    if about.animal_id is not None:
        yield from section(book, book.animals[about.animal_id])
        if found := loans_of_animal(book, about.animal_id, on):
            yield loans_section(book, young_of_loans(ask, found, on), on)
