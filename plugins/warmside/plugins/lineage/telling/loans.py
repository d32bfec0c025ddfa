"""Loans in words and tables: with whom, until when, and the young of each side."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from datetime import date

from msgspec.structs import replace

from warmside.api import (
    OWN_RECORDS,
    Answer,
    Basis,
    Book,
    Cell,
    Column,
    Fact,
    Kind,
    Part,
    Section,
    Table,
    Tone,
    Unit,
    paragraphs,
)
from warmside.plugins.lineage.loans.falling import Fall
from warmside.plugins.lineage.loans.loan import OVER, Agreement, Loan
from warmside.plugins.lineage.loans.young import OfLoan, Shared

LOANS = (
    Column("animal", "animal"),
    Column("which", "loan"),
    Column("other", "with"),
    Column("since", "since", Kind.DATE),
    Column("until", "until"),
    Column("ended", "ended", Kind.DATE),
    Column("late", "late", Unit.DAYS),
    Column("young", "young", Unit.COUNT),
    Column("ours", "ours", Unit.COUNT),
    Column("theirs", "theirs", Unit.COUNT),
    Column("open", "not agreed", Unit.COUNT),
    Column("events", "events", Kind.LIST, text=False),
)
BROODS = (
    Column("clutch", "clutch", Kind.CODE),
    Column("day", "laid or born", Kind.DATE),
    Column("hatched", "young", Unit.COUNT),
    Column("ours", "ours", Unit.COUNT),
    Column("theirs", "theirs", Unit.COUNT),
    Column("open", "not agreed", Unit.COUNT),
    Column("shared_out", "shared out"),
    Column("sure", "parent sure", Kind.YESNO),
    Column("events", "events", Kind.LIST, text=False),
)
ONLY_IF_SAID = ("ended", "late", "young", "ours", "theirs", "open")
NO_LAWYER = (
    "A record of what the keeper noted, not legal advice. Who owns young, and what permits an "
    "animal needs, differs by country."
)


def loans_table(book: Book, found: Sequence[tuple[Loan, OfLoan]], on: date) -> Table:
    """A row a loan."""
    rows = tuple(_loan_row(book, loan, young, on) for loan, young in found)
    columns = tuple(
        replace(c, text=c.key not in ONLY_IF_SAID or any(row[n] is not None for row in rows))
        for n, c in enumerate(LOANS[:-1])
    )
    return Table("loans", (*columns, LOANS[-1]), rows, empty="no loan is on record")


def _loan_row(book: Book, loan: Loan, young: OfLoan, on: date) -> tuple[Cell, ...]:
    animal = book.animals[loan.animal_id]
    count = sum(s.brood.hatched or 0 for s in young.broods)
    return (
        animal.label,
        side_words(loan),
        loan.other or None,
        loan.since,
        loan.until_said or None,
        loan.ended,
        loan.late_days(on) or None,
        count or None,
        *_counts(young.agreed if count else None),
        (*loan.events, *loan.agreed.events),
    )


def side_words(loan: Loan) -> str:
    """Which way it went."""
    return "lent out" if loan.out else "here on loan"


def _counts(fall: Fall | None) -> tuple[int | None, int | None, int | None]:
    return (None, None, None) if fall is None else (fall.ours, fall.theirs, fall.open or None)


def loan_facts(loan: Loan, on: date) -> tuple[Fact, ...]:
    """What is on record of a loan; what was not agreed is said as such."""
    until = Basis("as it was agreed", OWN_RECORDS, (*loan.events, *loan.agreed.events))
    facts = (
        Fact("which", "loan", side_words(loan)),
        Fact("other", "with", loan.other or None),
        Fact("since", "since", loan.since, Kind.DATE),
        Fact("until", "agreed until", loan.until_said or "no day was agreed", basis=until),
        Fact("late", "late", loan.late_days(on) or None, Unit.DAYS),
        Fact("ended", "ended", loan.ended, Kind.DATE),
        Fact("share", "young", share_words(loan.agreed)),
        Fact("terms", "terms", loan.agreed.terms or None),
    )
    return tuple(f for f in facts if f.value is not None)


def share_words(agreed: Agreement) -> str:
    """`50 % of the young of each clutch is ours, an odd one is theirs; they pick first`."""
    if agreed.ours_percent is None:
        return agreed.young or "no share is on record"
    odd = agreed.odd or "who has an odd one is not on record"
    said = f"{agreed.ours_percent:g} % {agreed.over or OVER['each clutch']} is ours, {odd}"
    return f"{said}; {agreed.young}" if agreed.young else said


def broods_table(young: OfLoan) -> Table:
    """A row a clutch, and what falls to each side in all."""
    rows = tuple(map(_brood_row, young.broods))
    if len(rows) > 1:
        count = sum(s.brood.hatched or 0 for s in young.broods)
        rows = (*rows, ("in all", None, count, *_counts(young.agreed), None, None, ()))
    return Table("broods", BROODS, rows, "Young of this loan", empty="no young of it are on record")


def _brood_row(shared: Shared) -> tuple[Cell, ...]:
    brood, divided = shared.brood, shared.brood.divided
    told = f"{divided.ours} ours, {divided.theirs} theirs" if divided else None
    return (
        brood.clutch or "none",
        brood.day,
        brood.hatched,
        *_counts(shared.agreed),
        told,
        brood.sure,
        brood.events,
    )


def doubts(loan: Loan, young: OfLoan) -> Iterator[str]:
    """What is not sure about the young of a loan."""
    if any(not s.brood.sure for s in young.broods):
        yield "Of some young it is not certain whose they are: settle that before they are shared."
    for shared in young.broods:
        divided, brood = shared.brood.divided, shared.brood
        if divided and brood.hatched is not None and divided.young != brood.hatched:
            yield (
                f"Clutch {brood.clutch}: {divided.young} were shared out, {brood.hatched} hatched."
            )
        elif divided and shared.agreed and not _fits(shared.agreed, divided):
            yield (
                f"Clutch {brood.clutch}: {divided.ours} ours and {divided.theirs} theirs is not "
                "what was agreed."
            )
    if loan.ended is None and loan.until is None:
        yield "No day of return is on record."


def _fits(agreed: Fall, divided: Fall) -> bool:
    return agreed.ours <= divided.ours <= agreed.ours + agreed.open


def loan_shown(book: Book, loan: Loan, young: OfLoan, on: date, days_after: float) -> Answer:
    """One loan with its young."""
    parts: list[Part] = [*loan_facts(loan, on), broods_table(young)]
    parts += paragraphs(*doubts(loan, young), tone=Tone.CAUTION)
    rule = (
        f"Young count that came from {loan.since} to {days_after:g} days after its end (common "
        "practice, no source). Young that came soon after it began may be of a mating before it."
    )
    parts += paragraphs(rule, NO_LAWYER)
    return Answer(f"Loan of {book.animals[loan.animal_id].label}", tuple(parts))


def loans_section(book: Book, found: Sequence[tuple[Loan, OfLoan]], on: date) -> Section:
    """The loans of one animal, for its report."""
    return Section("Loans", (loans_table(book, found, on), *paragraphs(NO_LAWYER)), 430)
