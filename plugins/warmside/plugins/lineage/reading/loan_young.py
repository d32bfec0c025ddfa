"""The young of animals that are or were on loan."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from datetime import date

from warmside.api import About, Animal, Ask, Book, Clutch
from warmside.plugins.lineage.kinds import DIVIDED
from warmside.plugins.lineage.loans.falling import Fall
from warmside.plugins.lineage.loans.loan import Loan
from warmside.plugins.lineage.loans.young import Brood, OfLoan, of_loans
from warmside.plugins.lineage.reading.kin import young_of_all


def young_of_loans(ask: Ask, loans: Sequence[Loan], on: date) -> list[tuple[Loan, OfLoan]]:
    """Each loan with its young, in the order of the loans."""
    found: dict[Loan, OfLoan] = {}
    for animal_id in dict.fromkeys(loan.animal_id for loan in loans):
        mine = [loan for loan in loans if loan.animal_id == animal_id]
        after = float(ask.setting("lineage", "loan_young", About(animal_id)))
        found |= dict(of_loans(mine, broods(ask.book, animal_id, on), after))
    return [(loan, found[loan]) for loan in loans]


def broods(book: Book, animal_id: int, on: date) -> list[Brood]:
    """The young of an animal up to a day, by clutch, those without one by their day."""
    clutches = [c for c in book.clutches.values() if is_parent(c, animal_id)]
    found = [b for c in clutches if (b := _of_clutch(book, c, animal_id, on)) is not None]
    found += _alone(book, animal_id, on)
    return sorted(found, key=lambda b: (b.day, b.clutch))


def is_parent(clutch: Clutch, animal_id: int) -> bool:
    """Whether an animal is the dam of a clutch, or may be its sire."""
    return animal_id in (clutch.dam_id, *(s.animal_id for s in clutch.sires))


def _of_clutch(book: Book, clutch: Clutch, animal_id: int, on: date) -> Brood | None:
    day = clutch.laid or clutch.hatched_first
    if day is None or day > on:
        return None
    sires = [s for s in clutch.sires if s.animal_id == animal_id]
    sure = clutch.dam_id == animal_id or all(s.certainty == "certain" for s in sires)
    hatched, events = _hatched(book, clutch, on)
    divided, told = _divided(book, clutch, animal_id, on)
    return Brood(clutch.code, day, hatched, sure, divided, (*events, *told))


def _hatched(book: Book, clutch: Clutch, on: date) -> tuple[int | None, tuple[int, ...]]:
    """How many hatched: as counted, else as many as are on record; None before any did."""
    told = [e for e in book.events("hatched", until=on) if e.data.get("clutch_id") == clutch.id]
    counted = [e for e in told if e.data.get("count") is not None]
    young = len(book.young_of(clutch.id))
    if counted:
        return max(sum(e.data["count"] for e in counted), young), tuple(e.id for e in counted)
    return (young or None), ()


def _divided(
    book: Book, clutch: Clutch, animal_id: int, on: date
) -> tuple[Fall | None, tuple[int, ...]]:
    """The last word on how the young of a clutch were shared out."""
    told = book.events(DIVIDED, animal=animal_id, until=on)
    mine = [e for e in told if e.data["clutch_id"] == clutch.id]
    if not mine:
        return None, ()
    return Fall(mine[-1].data["ours"], mine[-1].data["theirs"]), (mine[-1].id,)


def _alone(book: Book, animal_id: int, on: date) -> Iterator[Brood]:
    """Young that have no clutch on record, a brood for each date of hatching."""
    by_day: dict[date, list[Animal]] = {}
    for id in young_of_all(book).get(animal_id, ()):
        young = book.animals[id]
        if young.clutch_id is None and young.hatched and young.hatched.latest <= on:
            by_day.setdefault(young.hatched.latest, []).append(young)
    for day, born in by_day.items():
        yield Brood("", day, len(born), all(_is_sure(book, y.id, animal_id) for y in born))


def _is_sure(book: Book, young: int, parent: int) -> bool:
    mine = [p for p in book.parents[young] if p.parent_id == parent]
    return all(p.certainty == "certain" for p in mine)
