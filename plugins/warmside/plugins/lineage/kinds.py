"""The kinds of event of loans, of a female's season and of eggs."""

from __future__ import annotations

from warmside.api import EventKind, Unit, fields
from warmside.plugins.lineage.loans.loan import ODD, OVER

LOAN = "lineage.loan"
DIVIDED = "lineage.divided"
CYCLE = "lineage.cycle"
NEST = "lineage.nest"
INCUBATED = "lineage.incubated"
EGGS = "lineage.eggs"
MOST_EGGS = 200
"""More than any reptile that is kept lays at a time (from memory)."""


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


class CycleRecord:
    """A sign of a female's season that no other kind tells."""

    seen: str = fields.choice(
        ("follicles", "ovulation", "pre-lay shed", "laying begun"), "what was seen"
    )


class NestRecord:
    """A place to lay in was given."""


class IncubatedRecord:
    """Eggs were put to incubate, or their temperature was changed."""

    clutch_id: int = fields.clutch_ref("the clutch")
    kept_c: float | None = fields.measure(
        Unit.TEMPERATURE, "incubation temperature", least=10, most=45, optional=True, before="at"
    )
    where: str = fields.words("which incubator, or with the mother", before="in")


class EggsRecord:
    """A look at the eggs of a clutch: candled, counted, bad ones taken out."""

    clutch_id: int = fields.clutch_ref("the clutch")
    good: int | None = fields.whole("good eggs that are left", most=MOST_EGGS, after="good")
    removed: int | None = fields.whole("eggs taken out", most=MOST_EGGS, after="taken out")
    looks: str = fields.words("mould, dents, sweating, what candling shows")


KINDS = (
    EventKind(LOAN, "loan agreed", LoanRecord, absent=True),
    EventKind(DIVIDED, "young shared out", DividedRecord, absent=True),
    EventKind(CYCLE, "sign of the season", CycleRecord, absent=True),
    EventKind(NEST, "nest given", NestRecord, todo="give her a place to lay in"),
    EventKind(INCUBATED, "eggs incubated", IncubatedRecord, absent=True),
    EventKind(EGGS, "looked at the eggs", EggsRecord, absent=True),
)
