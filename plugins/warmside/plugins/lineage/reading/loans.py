"""The loans on record."""

from __future__ import annotations

import re
from collections.abc import Iterator
from datetime import date

from warmside.api import Book, Event, PartialDate, Whereabouts
from warmside.plugins.lineage.kinds import LOAN
from warmside.plugins.lineage.loans.loan import ON_LOAN_HERE, Agreement, Loan, Stretch, loans_of

MONTH_OR_YEAR = re.compile("([0-9]{4})(?:-([0-9]{2}))?")


def loans(book: Book, on: date) -> list[Loan]:
    """All loans up to a day, those that ended too, by animal and the oldest first."""
    return book.once(("lineage", "loans", on), lambda: _loans(book, on))


def _loans(book: Book, on: date) -> list[Loan]:
    lent = [e.animal_id for e in book.events("lent", until=on)]
    taken = book.events("arrived", until=on)
    lent += [e.animal_id for e in taken if e.data.get("how") == ON_LOAN_HERE]
    ids = sorted({id for id in lent if id is not None})
    return [loan for id in ids for loan in loans_of_animal(book, id, on)]


def loans_of_animal(book: Book, animal_id: int, on: date) -> list[Loan]:
    """The loans of one animal up to a day."""
    history = book.whereabouts_history(animal_id, on)
    lent = {e.id: e for e in book.events("lent", animal=animal_id, until=on)}
    agreed = [(e.day, _agreement(e)) for e in book.events(LOAN, animal=animal_id, until=on)]
    return list(loans_of(animal_id, [_stretch(w, lent) for w in history], agreed))


def running(book: Book, on: date) -> Iterator[Loan]:
    """The loans that run on a day."""
    return (loan for loan in loans(book, on) if loan.runs(on))


def _stretch(where: Whereabouts, lent: dict[int, Event]) -> Stretch:
    event = next((lent[id] for id in where.events if id in lent), None)
    data = event.data if event else {}
    until, words = data.get("until"), data.get("until_words", "")
    return Stretch(
        where.custody.value,
        where.since,
        where.counterpart,
        where.terms,
        date.fromisoformat(until) if until else _last_day(words),
        words,
        where.events,
    )


def _last_day(words: str) -> date | None:
    """The last day of a year or month: of `2026-06` it is the 30th of June."""
    found = MONTH_OR_YEAR.fullmatch(words)
    if found is None:
        return None
    return PartialDate(*(int(n) for n in found.groups() if n)).latest


def _agreement(event: Event) -> Agreement:
    data = event.data
    until = data.get("until")
    return Agreement(
        date.fromisoformat(until) if until else None,
        data.get("ours_percent"),
        data.get("odd"),
        data.get("over"),
        data.get("young", ""),
        data.get("terms", ""),
        (event.id,),
    )
