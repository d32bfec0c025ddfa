"""Entries of cases that follow from what was recorded: a sign seen, a sign gone, a visit."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from datetime import date

from warmside.api import Book, Event, NewEvent
from warmside.plugins.health.cases.from_signs import begins_case, is_over, standing
from warmside.plugins.health.kinds import CASE, CLOSED, EXAMINED, OPEN, SIGN
from warmside.plugins.health.reading.cases import seen_by_vet
from warmside.plugins.health.reading.treatment import open_case_of, signs_of


def entries_from(book: Book, events: Sequence[Event]) -> Iterator[NewEvent]:
    """The entries that a step brings with it: of each animal at most one."""
    done: set[int] = set()
    for event in events:
        animal = event.animal_id
        if event.kind not in (SIGN, EXAMINED) or animal is None or animal in done:
            continue
        if animal not in book.animals_here(event.day):
            continue
        entry = _of_sign(book, event, animal) if event.kind == SIGN else _of_visit(book, event)
        if entry is not None:
            done.add(animal)
            yield entry


def _of_sign(book: Book, event: Event, animal: int) -> NewEvent | None:
    """A sign begins a case; one that is gone ends a case of which there was nothing else."""
    case = open_case_of(book, animal, book.today)
    said = signs_of(book, animal, book.today)
    new = next(s for s in said if s.event == event.id)
    if begins_case(new, case is not None):
        return _entry(event, animal, OPEN, new.words)
    visits = seen_by_vet(book, animal, book.today)
    if not new.seen and case is not None and is_over(case, said, visits, book.today):
        return _entry(event, animal, CLOSED, f"{new.sign} is gone")
    return None


def _of_visit(book: Book, event: Event) -> NewEvent | None:
    """A visit while a sign stands begins a case, where none is open."""
    animal = event.animal_id
    assert animal is not None
    if open_case_of(book, animal, max(event.day, book.today)) is not None:
        return None
    seen = [
        s
        for s in standing(signs_of(book, animal, event.day), event.day)
        if _unseen(book, s.day, event)
    ]
    if not seen:
        return None
    what = ", ".join(s.what for s in seen)
    return _entry(event, animal, OPEN, f"at a vet with {what}; told: {event.data['told']}")


def _unseen(book: Book, day: date, visit: Event) -> bool:
    """Whether no earlier visit lies between a sighting and this one."""
    assert visit.animal_id is not None
    days = seen_by_vet(book, visit.animal_id, visit.day)
    return not any(day < seen < visit.day for seen in days)


def _entry(event: Event, animal: int, state: str, what: str) -> NewEvent:
    return NewEvent(CASE, event.day, {"state": state, "what": what}, animal, at=event.at)
