"""Documents and marks as values: whether they hold on a day, and for how long."""

from __future__ import annotations

from datetime import date, timedelta

from msgspec import Struct

from warmside.api import BadInput

MARKS = ("transponder", "ring", "scale photo", "paper number", "other")
KINDS = (
    "permit",
    "certificate",
    "import permit",
    "export permit",
    "proof of origin",
    "receipt",
    "insurance",
    "licence",
    "other",
)
MOST_YEARS = 100


class Mark(Struct, frozen=True):
    """By what an animal is known; `id` is its row."""

    id: int
    animal: int
    kind: str
    number: str
    place: str = ""
    since: date | None = None
    note: str = ""

    @property
    def words(self) -> str:
        """`transponder 276098100123456, left side`."""
        where = f", {self.place}" if self.place else ""
        return f"{self.kind} {self.number}{where}"


class Document(Struct, frozen=True):
    """A document of an animal, or of the keeper (`animal` None)."""

    id: int
    animal: int | None
    kind: str
    number: str = ""
    authority: str = ""
    issued: date | None = None
    until: date | None = None
    kept: str = ""
    value: str = ""
    ended: date | None = None
    note: str = ""

    @property
    def name(self) -> str:
        """`permit 12-34`, or the kind alone."""
        return f"{self.kind} {self.number}".strip()

    def is_same(self, kind: str, number: str) -> bool:
        """Whether it is of that kind and number; without a number it may be another."""
        return bool(number) and (self.kind, self.number.casefold()) == (kind, number.casefold())

    def is_needed(self, on: date) -> bool:
        """Whether it was not put aside by then."""
        return self.ended is None or self.ended > on

    def state(self, on: date) -> str:
        """`holds`, `holds until 2027-01-01`, `ended on ...` or `put aside ...`."""
        if not self.is_needed(on):
            return f"put aside on {self.ended}"
        if self.until is None:
            return "holds, no end on record"
        return f"holds until {self.until}" if self.until >= on else f"ended on {self.until}"


def notice_from(document: Document, notice_days: float) -> date | None:
    """The day from which its end is to be seen to, not before it was issued; None without end."""
    if document.until is None:
        return None
    first = document.until - timedelta(days=round(notice_days))
    return max(first, document.issued) if document.issued else first


def check_days(issued: date | None, until: date | None, today: date) -> None:
    """BadInput for days that no document has."""
    if issued and until and until < issued:
        raise BadInput(f"it would end on {until}, before it began on {issued}; look at both again")
    if issued and issued > today:
        raise BadInput(f"it is issued on {issued}, which is to come; enter it once you have it")
    if until and until.year - today.year > MOST_YEARS:
        raise BadInput(f"until {until} is more than {MOST_YEARS} years ahead; leave out --until")
