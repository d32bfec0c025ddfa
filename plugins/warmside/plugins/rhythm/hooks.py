"""Tasks and label lines from the keeper's own rhythms."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date

from sqlalchemy import select

from warmside.api import (
    Basis,
    Book,
    Event,
    EventKind,
    LabelLine,
    Mark,
    Source,
    Subject,
    Task,
    days_ago_words,
    hookimpl,
)
from warmside.plugins.rhythm.due import Rhythm, applying, due_day
from warmside.plugins.rhythm.tables import rhythm

OWN = Source("the rhythm that the keeper set", Mark.KEEPERS_OWN)


def rhythms(book: Book) -> list[Rhythm]:
    """All rhythms, those for all first."""
    c = rhythm.c
    query = select(c.kind, c.days, c.animal_id, c.enclosure_id).order_by(c.kind, c.id)
    return [Rhythm(*row) for row in book.rows(query)]


@hookimpl
def warmside_tasks(book: Book, on: date) -> Iterator[Task]:
    """What is due by the keeper's rhythms."""
    known = rhythms(book)
    for name in dict.fromkeys(r.kind for r in known):
        kind = book.host.kinds.get(name)
        if kind is not None:
            yield from _tasks_of(book, kind, known, on)


def _tasks_of(book: Book, kind: EventKind, known: list[Rhythm], on: date) -> Iterator[Task]:
    of_enclosure = kind.subject is Subject.ENCLOSURE
    subjects = _enclosures(book, on) if of_enclosure else _animals(book, on)
    lookup = book.latest_in if of_enclosure else book.latest
    last = lookup(kind.name, on=on)[kind.name]
    for subject, found in applying(known, kind.name, subjects).items():
        event = last.get(subject)
        set_up = subjects[subject] if of_enclosure else None
        due = due_day(found.days, event.day if event else set_up, subjects[subject])
        if due <= on:
            basis = Basis(_why(found, event, on), OWN, (event.id,) if event else ())
            yield Task(
                kind.todo or kind.title,
                due,
                basis,
                animal_id=None if of_enclosure else subject,
                enclosure_id=subject if of_enclosure else None,
                settles=kind.name,
                every_days=found.days,
            )


def _animals(book: Book, on: date) -> dict[int, date]:
    return {a: w.since for a, w in book.animals_here(on).items()}


def _enclosures(book: Book, on: date) -> dict[int, date]:
    """Enclosures that are lived in, and since when; they are set up clean, with fresh water."""
    here = book.animals_here(on)
    since: dict[int, date] = {}
    for where in here.values():
        if where.enclosure_id is not None:
            known = since.get(where.enclosure_id, where.since)
            since[where.enclosure_id] = min(known, where.since)
    return since


def _why(found: Rhythm, last: Event | None, on: date) -> str:
    every = "every day" if found.days == 1 else f"every {found.days} days"
    return f"{every}, last {days_ago_words(last.day, on)}" if last else f"{every}, never yet"


@hookimpl
def warmside_label_lines(book: Book, animal_id: int, on: date) -> Iterator[LabelLine]:
    """The rhythms of an animal, for a sitter."""
    known = rhythms(book)
    for name in dict.fromkeys(r.kind for r in known):
        kind = book.host.kinds.get(name)
        found = applying(known, name, [animal_id]).get(animal_id)
        if kind is not None and kind.subject is not Subject.ENCLOSURE and found is not None:
            yield LabelLine(f"rhythm.{name}", f"{kind.title} every {found.days} days")
