"""What the keeper should know of loans and of pairs that are close kin."""

from __future__ import annotations

from datetime import date

from warmside.api import OWN_RECORDS, About, Animal, Basis, Finding, Level, Mark, Source
from warmside.plugins.lineage.loans.loan import Loan
from warmside.plugins.lineage.reading.close_pairs import PairKinship

OVERDUE = "lineage.overdue"
CLOSE = "lineage.close_pair"
WRIGHT = Source("Wright 1922 Am Nat 56:330-338", Mark.PUBLISHED)


def overdue(loan: Loan, animal: Animal, on: date) -> Finding | None:
    """That a loan runs beyond its agreed end; None where it does not."""
    late = loan.late_days(on)
    if not late:
        return None
    days = "1 day" if late == 1 else f"{late} days"
    who = loan.other or ("its keeper" if loan.out else "its owner")
    what = f"should be back from {who}" if loan.out else f"should be back with {who}"
    words = (
        f"{animal.name} {what} since {loan.until_said}, {days} ago. If a longer loan was agreed: "
        f"warmside lineage loan agree {animal.code} --until DAY"
    )
    basis = Basis("the agreed end of the loan", OWN_RECORDS, loan.events)
    return Finding(OVERDUE, Level.LOOK_SOON, words, basis, About(animal.id))


def close_pair(pair: PairKinship, dam: Animal, sire: Animal, limit: float) -> Finding | None:
    """That young of a pair would be more inbred than is set; None where they would not."""
    if pair.expected <= limit + 1e-12:
        return None
    spread = pair.most - pair.least > 1e-12
    unsure = f" ({pair.least:.3g} to {pair.most:.3g} by who the parents are)" if spread else ""
    words = (
        f"kin of {sire.name}: their young would have an inbreeding of {pair.expected:.3g}{unsure}, "
        f"more than the {limit:.3g} that is set; see: "
        f"warmside lineage pair {dam.code} {sire.code}"
    )
    basis = Basis("exact over all recorded ancestors; mated of late or kept together", WRIGHT)
    return Finding(CLOSE, Level.NOTE, words, basis, About(dam.id))
