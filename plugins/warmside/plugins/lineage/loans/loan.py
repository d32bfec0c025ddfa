"""A loan as it follows from who held an animal, and from what was agreed."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from datetime import date

from msgspec import Struct
from msgspec.structs import replace

LENT_OUT = "lent out"
ON_LOAN_HERE = "on loan here"
OVER = {
    "each clutch": "of the young of each clutch",
    "all clutches": "of the young of all clutches together",
}
"""What is shared out at a time: as it is typed, and as it is recorded."""
ODD = {"us": "an odd one is ours", "them": "an odd one is theirs"}
"""Who has a young that cannot be shared."""


class Stretch(Struct, frozen=True):
    """Who held an animal from a day on: a custody in the core's words, and the other side."""

    custody: str
    since: date
    other: str = ""
    terms: str = ""
    until: date | None = None
    until_words: str = ""
    events: tuple[int, ...] = ()


class Agreement(Struct, frozen=True):
    """What was agreed on a loan, as far as it is on record; later words go before earlier ones.

    `ours_percent` is our share of the young; `odd` who has a young that cannot be shared.
    """

    until: date | None = None
    ours_percent: float | None = None
    odd: str | None = None
    over: str | None = None
    young: str = ""
    terms: str = ""
    events: tuple[int, ...] = ()

    def then(self, later: Agreement) -> Agreement:
        """Both, the later one first where both say something."""
        mine = {name: getattr(self, name) for name in self.__struct_fields__}
        said = {name: getattr(later, name) for name in self.__struct_fields__}
        kept = {name: said[name] if said[name] not in (None, "") else mine[name] for name in mine}
        return Agreement(**{**kept, "events": (*self.events, *later.events)})


class Loan(Struct, frozen=True):
    """An animal of ours that another keeps (`out`), or one of another that we keep.

    `ended` is the day on which it came or went back, None while it runs; `until` the last day that
    was agreed, where one is on record.
    """

    animal_id: int
    out: bool
    other: str
    since: date
    ended: date | None
    until: date | None
    until_words: str
    agreed: Agreement = Agreement()
    events: tuple[int, ...] = ()

    def runs(self, on: date) -> bool:
        """Whether it runs on a day."""
        return self.since <= on and (self.ended is None or self.ended > on)

    def late_days(self, on: date) -> int:
        """For how many days the animal should have been back, while the loan runs."""
        return max(0, (on - self.until).days) if self.until and self.runs(on) else 0

    @property
    def until_said(self) -> str:
        """The agreed day of return as it was said; empty where none is on record."""
        return self.until_words or (self.until.isoformat() if self.until else "")


def loans_of(
    animal_id: int, stretches: Sequence[Stretch], agreements: Iterable[tuple[date, Agreement]]
) -> Iterator[Loan]:
    """The loans of one animal, the oldest first, each with what was agreed while it ran."""
    said = list(agreements)
    for loan in _bare(animal_id, stretches):
        agreed = Agreement()
        for day, one in said:
            if loan.since <= day and (loan.ended is None or day <= loan.ended):
                agreed = agreed.then(one)
        yield _with(loan, agreed)


def _bare(animal_id: int, stretches: Sequence[Stretch]) -> Iterator[Loan]:
    """Stretches as loans: what happens to an animal within a loan here does not end it."""
    running: Loan | None = None
    for stretch in stretches:
        goes_on = running is not None and not running.out and stretch.custody == ON_LOAN_HERE
        if running is not None and not goes_on:
            yield replace(running, ended=stretch.since)
            running = None
        if running is None and stretch.custody in (LENT_OUT, ON_LOAN_HERE):
            running = Loan(
                animal_id,
                stretch.custody == LENT_OUT,
                stretch.other,
                stretch.since,
                None,
                stretch.until,
                stretch.until_words,
                Agreement(terms=stretch.terms),
                stretch.events,
            )
    if running is not None:
        yield running


def _with(loan: Loan, agreed: Agreement) -> Loan:
    """A loan with what was agreed on it; a day agreed later goes before the first one."""
    changed = agreed.until is not None
    return replace(
        loan,
        until=agreed.until or loan.until,
        until_words="" if changed else loan.until_words,
        agreed=loan.agreed.then(agreed),
    )
