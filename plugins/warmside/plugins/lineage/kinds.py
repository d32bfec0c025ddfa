"""The kinds of event of a loan: what was agreed, and how young were shared out."""

from __future__ import annotations

from warmside.api import EventKind, Unit, fields
from warmside.plugins.lineage.loans.loan import ODD, OVER

LOAN = "lineage.loan"
DIVIDED = "lineage.divided"


class LoanRecord:
    """What was agreed on a loan that runs, of an animal of ours or of one that is here on loan."""

    until: str | None = fields.day("agreed day of return", optional=True, before="until")
    ours_percent: float | None = fields.measure(
        Unit.PERCENT, "our share of the young", least=0, most=100, optional=True
    )
    over: str | None = fields.choice(
        tuple(OVER.values()), "what is shared out at a time", default=None, also=OVER
    )
    odd: str | None = fields.choice(
        tuple(ODD.values()), "who has a young that cannot be shared", default=None, also=ODD
    )
    young: str = fields.words("what was agreed on the young: who picks first, dead ones")
    terms: str = fields.words("other terms")


class DividedRecord:
    """How the young of a clutch were shared out."""

    clutch_id: int = fields.clutch_ref("the clutch")
    ours: int = fields.whole("young that are ours", most=500, required=True)
    theirs: int = fields.whole("young that are theirs", most=500, required=True)


KINDS = (
    EventKind(LOAN, "loan agreed", LoanRecord, absent=True),
    EventKind(DIVIDED, "young shared out", DividedRecord, absent=True),
)
