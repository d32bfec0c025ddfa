"""Which young belong to a loan, and how many fall to each side."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from datetime import date, timedelta

from msgspec import Struct

from warmside.plugins.lineage.loans.falling import Fall, falls
from warmside.plugins.lineage.loans.loan import Loan


class Brood(Struct, frozen=True):
    """Young of the lent animal that came together; `clutch` is empty where they have none.

    `hatched` is how many did, None where that is not on record yet; `sure` whether it is certain
    that the animal is the parent. `divided` is how they were shared out, where that is on record.
    """

    clutch: str
    day: date
    hatched: int | None
    sure: bool = True
    divided: Fall | None = None
    events: tuple[int, ...] = ()


class Shared(Struct, frozen=True):
    """A brood with what falls to each side by the agreement; None where that is not open to say."""

    brood: Brood
    agreed: Fall | None


class OfLoan(Struct, frozen=True):
    """The broods of a loan, and what falls to each side in all."""

    broods: tuple[Shared, ...]
    agreed: Fall
    divided: Fall


def belongs(loan: Loan, brood: Brood, days_after: float) -> bool:
    """Whether young came from the beginning of a loan to so many days after its end."""
    if brood.day < loan.since:
        return False
    return loan.ended is None or brood.day <= loan.ended + timedelta(days=days_after)


def of_loans(
    loans: Sequence[Loan], broods: Iterable[Brood], days_after: float
) -> Iterator[tuple[Loan, OfLoan]]:
    """Each loan of an animal with its young; young that two loans may claim are of the later."""
    claimed: dict[int, list[Brood]] = {n: [] for n in range(len(loans))}
    for brood in broods:
        fitting = [n for n, loan in enumerate(loans) if belongs(loan, brood, days_after)]
        if fitting:
            claimed[fitting[-1]].append(brood)
    for number, loan in enumerate(loans):
        yield loan, of_loan(loan, claimed[number])


def of_loan(loan: Loan, broods: Sequence[Brood]) -> OfLoan:
    """What falls to each side of these young."""
    known = [b for b in broods if b.hatched is not None]
    each, total = falls([b.hatched or 0 for b in known], loan.agreed)
    by_brood = dict(zip(map(id, known), each, strict=True))
    divided = Fall(0, 0)
    for brood in broods:
        divided = divided.and_(brood.divided) if brood.divided else divided
    shared = tuple(Shared(b, by_brood.get(id(b))) for b in broods)
    return OfLoan(shared, total, divided)
