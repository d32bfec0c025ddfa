"""`warmside weight doubts`: weighings that look mistyped, and those that are right all the same."""

from __future__ import annotations

from datetime import date
from typing import Annotated

import typer

from warmside.api import (
    Answer,
    BadInput,
    Book,
    Cell,
    Column,
    Display,
    Event,
    Kind,
    NewEvent,
    Session,
    Table,
    Tone,
    Unit,
    paragraphs,
    said,
    session_of,
)
from warmside.plugins.weight.judging import doubts_of
from warmside.plugins.weight.kinds import CHECKED
from warmside.plugins.weight.noticed import series_of
from warmside.plugins.weight.reading import whole
from warmside.plugins.weight.weights import Weights

COLUMNS = (
    Column("animal", "who", Kind.CODE),
    Column("event", "event"),
    Column("day", "day", Kind.DATE),
    Column("mass", "mass", Unit.MASS),
    Column("perhaps", "perhaps", Unit.MASS),
    Column("why", "why"),
)
HINTS = ("warmside correct EVENT mass=412g", "warmside weight doubts --right EVENT")


def doubts(
    context: typer.Context,
    animal: Annotated[
        str | None, typer.Argument(help="Code or name of the animal; none means all.")
    ] = None,
    right: Annotated[
        list[int] | None, typer.Option(help="Number of a weighing that is right all the same.")
    ] = None,
) -> Answer:
    """Weighings in the whole history that look mistyped or like another animal's."""
    session = session_of(context)
    if right:
        return _settled(session, right)
    with session.read() as book:
        known = {a: whole(book, a, book.today) for a in _ids(book, None)}
        if animal is not None:
            asked = book.animal(animal).id
            known.setdefault(asked, whole(book, asked, book.today))
        rows = _rows(known, _ids(book, animal), book.home.display)
    table = Table("doubts", COLUMNS, rows, empty="no weighing is in doubt")
    hints = paragraphs(*(HINTS if rows else ()), tone=Tone.HINT)
    return Answer("Weighings in doubt", (table, *hints))


def _ids(book: Book, animal: str | None) -> list[int]:
    if animal is not None:
        return [book.animal(animal).id]
    return list(book.latest("weighed")["weighed"])


def _rows(
    known: dict[int, Weights], ids: list[int], display: Display
) -> tuple[tuple[Cell, ...], ...]:
    series = series_of(known)
    return tuple(
        (
            known[id].animal.code,
            event,
            date.fromordinal(int(known[id].day_of(event))),
            known[id].mass_of(event),
            doubt.meant_g,
            doubt.words.said(display),
        )
        for id in ids
        for doubt in doubts_of(known[id], series)
        for event in doubt.events
    )


def _settled(session: Session, numbers: list[int]) -> Answer:
    with session.step("weights are right") as writer:
        events = [_weighing(writer.book, n) for n in dict.fromkeys(numbers)]
        day = writer.book.today
        writer.record_checked(
            NewEvent(CHECKED, max(day, e.day), {"weighing": e.id}, e.animal_id) for e in events
        )
        names = ", ".join(str(e.id) for e in events)
        writer.say(f"weighings that are right though they look odd: {names}")
    return said(f"noted that these weighings are right: {names}", hints=["warmside undo"])


def _weighing(book: Book, number: int) -> Event:
    event = book.event(number)
    if event.kind != "weighed" or event.replaced_by is not None:
        raise BadInput(f"event {number} is no weighing that counts; see: warmside weight doubts")
    return event
