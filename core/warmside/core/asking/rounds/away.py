"""Animals that are lent out: with whom, and when they are to be back."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date

from msgspec import Struct

from warmside.core.answers.parts import Column, Kind, Table
from warmside.core.record.book import Book
from warmside.core.record.entities import Animal
from warmside.core.record.whereabouts import Custody
from warmside.core.values.counts import counted
from warmside.core.values.units import Unit

COLUMNS = (
    Column("animal", "who", text=False),
    Column("to", "with", text=False),
    Column("until", "back by", Kind.DATE, text=False),
    Column("until_words", "agreed", text=False),
    Column("late", "late", Unit.DAYS, text=False),
)


class Loan(Struct, frozen=True):
    """An animal of ours that another keeps; `until` where a day of return was agreed."""

    animal: Animal
    to: str
    until: date | None
    until_words: str

    def late_days(self, on: date) -> int:
        """For how many days it should have been back."""
        return max(0, (on - self.until).days) if self.until else 0

    def words(self, on: date) -> str:
        """`Ember (EMB) is with A. Nother until 2026-05-01`, and how late that is."""
        said = f"{self.animal.label} is with {self.to}"
        agreed = self.until.isoformat() if self.until else self.until_words
        late = self.late_days(on)
        if late:
            return f"! {said}, {days_words(late)} late: back was due on {agreed}"
        return f"{said} until {agreed}" if agreed else f"{said}, no day of return on record"


def days_words(days: int) -> str:
    """`1 day` or `12 days`."""
    return counted(days, "day")


def loans(book: Book, on: date) -> Iterator[Loan]:
    """All loans that run on a day, those that are late longest first."""
    out = [a for a, w in book.whereabouts(on).items() if w.custody is Custody.LENT_OUT]
    lent = book.latest("lent", on=on)["lent"] if out else {}
    found = []
    for animal_id in out:
        data = lent[animal_id].data
        until = date.fromisoformat(data["until"]) if data.get("until") else None
        to, words = data.get("to", ""), data.get("until_words", "")
        found.append(Loan(book.animals[animal_id], to, until, words))
    yield from sorted(found, key=lambda loan: -loan.late_days(on))


def away_table(book: Book, on: date, told: frozenset[int] = frozenset()) -> Table:
    """The loans, told as one sentence each, but for the animals of which that is `told` already."""
    found = list(loans(book, on))
    rows = tuple(
        (
            loan.animal.label,
            loan.to or None,
            loan.until,
            loan.until_words or None,
            loan.late_days(on) or None,
        )
        for loan in found
    )
    said = (loan.words(on) for loan in found if loan.animal.id not in told)
    return Table("away", COLUMNS, rows, empty="\n".join(said))
