"""What loans ask for: to be given or taken back in time."""

from __future__ import annotations

from datetime import date, timedelta

from warmside.api import OWN_RECORDS, About, Animal, Basis, Task
from warmside.plugins.lineage.loans.loan import Loan


def back_task(loan: Loan, animal: Animal, notice_days: int, on: date) -> Task | None:
    """To have an animal back, or to give it back; None where no day was agreed.

    None, too, once the day is over: then a finding tells of it, and twice would be too much.
    """
    if loan.until is None or loan.late_days(on):
        return None
    basis = Basis(f"on loan until {loan.until_said}", OWN_RECORDS, loan.events)
    due = max(loan.since, loan.until - timedelta(days=notice_days))
    who = loan.other or ("its keeper" if loan.out else "its owner")
    return Task(
        f"have it back from {who}" if loan.out else f"give it back to {who}",
        due,
        basis,
        About(animal.id),
        settles="returned" if loan.out else "departed",
        data={"after": "loan"} if loan.out else {"how": "back to its owner", "to": loan.other},
        by=max(due, loan.until),
        key="loan ends",
        keepers=True,
    )
