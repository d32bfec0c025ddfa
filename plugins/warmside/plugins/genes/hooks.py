"""Kinds, findings, label lines and report sections of genes."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from datetime import date

from warmside.api import (
    About,
    Ask,
    Book,
    Distribution,
    Estimate,
    Event,
    EventKind,
    Finding,
    LabelLine,
    NewEvent,
    Section,
    hookimpl,
    sheets,
)
from warmside.plugins.genes.findings import finding, harmful
from warmside.plugins.genes.kinds import KINDS
from warmside.plugins.genes.reading.doubts import doubts
from warmside.plugins.genes.reading.harms import harms
from warmside.plugins.genes.reading.said import said_of_all
from warmside.plugins.genes.reading.traits import catalogue
from warmside.plugins.genes.telling.label import label_line
from warmside.plugins.genes.traits.words import Known


@hookimpl
def warmside_event_kinds() -> Iterable[EventKind]:
    """What an animal carries."""
    return KINDS


@hookimpl
def warmside_findings(book: Book, ask: Ask, on: date) -> Iterator[Finding]:
    """Facts that contradict each other, doubtful statements, pairs with a trait known to harm."""
    yield from map(finding, doubts(ask))
    for harm in harms(ask, on):
        sire = book.animals[harm.sire]
        yield harmful(harm, catalogue(book, sire.species).trait(harm.trait), sire)


@hookimpl
def warmside_events_recorded(book: Book, events: tuple[Event, ...]) -> Iterator[NewEvent]:
    """Looks that are recorded say something of the genes."""
    from warmside.plugins.genes.reading.worded import from_looks

    yield from from_looks(book, events)


@hookimpl
def warmside_answer(
    ask: Ask, what: str, about: object, on: date
) -> Iterator[Estimate | Distribution]:
    """How odd the clutch of an animal looks, and how many copies it has, for each trait."""
    if not isinstance(about, About) or about.animal_id is None:
        return
    animal = ask.book.animals[about.animal_id]
    if what == "clutch odds":
        from warmside.plugins.genes.reading.clutch_odds import clutch_odds

        yield from clutch_odds(ask, animal, on)
    else:
        from warmside.plugins.genes.reading.trait_copies import trait_copies

        yield from trait_copies(ask, animal, on)


@hookimpl
def warmside_label_lines(book: Book, ask: Ask, about: About, on: date) -> Iterator[LabelLine]:
    """What an animal is recorded to carry, and what its young have proven."""

    def is_proven(known: Known) -> bool:
        from warmside.plugins.genes.reading.trait_copies import is_het

        return is_het(ask, book.animals[about.animal_id or 0], known.trait.name, on)

    yield from label_line(said_of_all(book, on).get(about.animal_id or 0, ()), is_proven)


@hookimpl
def warmside_sheet_sections(
    ask: Ask, sheet: sheets.Sheet, about: About, on: date
) -> Iterator[Section]:
    """For the next owner what an animal carries, and how that is known."""
    from warmside.plugins.genes.reading.sections import owner_section

    if sheet is sheets.Sheet.OWNER and about.animal_id is not None:
        yield from owner_section(ask, ask.book.animals[about.animal_id], on)


@hookimpl
def warmside_report_sections(book: Book, ask: Ask, about: About, on: date) -> Iterator[Section]:
    """What an animal carries, by what evidence, and the chances that follow."""
    from warmside.plugins.genes.reading.sections import section

    if about.animal_id is not None:
        yield from section(ask, book.animals[about.animal_id], on)
