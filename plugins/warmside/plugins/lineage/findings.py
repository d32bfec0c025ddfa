"""What the keeper should know of loans."""

from __future__ import annotations

from datetime import date

from warmside.api import OWN_RECORDS, About, Animal, Basis, Finding, Level
from warmside.plugins.lineage.loans.loan import Loan

OVERDUE = "lineage.overdue"


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
