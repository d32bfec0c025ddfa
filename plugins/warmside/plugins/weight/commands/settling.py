"""`warmside weight doubts`: weighings that look mistyped, and those that are right all the same."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Annotated

import typer
from msgspec.structs import replace

from warmside.api import (
    Answer,
    Ask,
    BadInput,
    Book,
    Event,
    Session,
    Tone,
    paragraphs,
    recorded,
    session_of,
)
from warmside.plugins.weight.course.judging import doubts_of
from warmside.plugins.weight.course.weights import Weights
from warmside.plugins.weight.kinds import said_right
from warmside.plugins.weight.reading.weights import ever_weighed, whole
from warmside.plugins.weight.slips.suspicion import Suspicion
from warmside.plugins.weight.telling.doubts import doubts_table

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
    with session.ask() as ask:
        table = doubts_table(_asked(ask, animal), ask.book.home.display)
    hints = paragraphs(*(HINTS if table.rows else ()), tone=Tone.HINT)
    return Answer("Weighings in doubt", (table, *hints))


def _asked(ask: Ask, animal: str | None) -> Iterator[tuple[Weights, tuple[Suspicion, ...]]]:
    """The weighings of the animals that were asked for, with the doubts about them."""
    ids = ever_weighed(ask)
    asked = ids if animal is None else [ask.book.animal(animal).id]
    known = {a: whole(ask, a, ask.book.today) for a in dict.fromkeys((*ids, *asked))}
    series = {w.animal.code: w.sound for w in known.values()}
    for id in asked:
        yield known[id], doubts_of(known[id], lambda: series)


def _settled(session: Session, numbers: list[int]) -> Answer:
    with session.step("weights are right") as writer:
        events = [_weighing(writer.book, n) for n in dict.fromkeys(numbers)]
        day = writer.book.today
        right = [replace(said_right(e), day=max(day, e.day), at=None) for e in events]
        made = writer.record_checked(right)
        names = ", ".join(str(e.id) for e in events)
        writer.say(f"weighings that are right though they look odd: {names}")
    with session.ask() as ask:
        return recorded(ask, made, *paragraphs(f"noted that these weighings are right: {names}"))


def _weighing(book: Book, number: int) -> Event:
    event = book.event(number)
    if event.kind != "weighed" or event.replaced_by is not None:
        raise BadInput(f"event {number} is no weighing that counts; see: warmside weight doubts")
    return event
