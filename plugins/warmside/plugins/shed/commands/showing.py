"""The commands that show stages and cycles."""

from __future__ import annotations

from typing import Annotated

import typer

from warmside.api import Answer, BadInput, session_of
from warmside.plugins.shed.commands.typed import OnDay
from warmside.plugins.shed.reading.ahead import usual_ahead
from warmside.plugins.shed.reading.sheds import sheds_here, sheds_of
from warmside.plugins.shed.telling.cycles import cycles_table, timeline
from warmside.plugins.shed.telling.sheds import overview, shown, shown_since

AnimalName = Annotated[str, typer.Argument(help="Code or name of the animal.")]
MaybeAnimal = Annotated[
    str | None, typer.Argument(help="Code or name of the animal; none means all.")
]
Since = Annotated[str | None, typer.Option(help="From that day on; a year back unless given.")]


def show(context: typer.Context, animal: MaybeAnimal = None, on: OnDay = None) -> Answer:
    """The stage, what is expected and what to do now, of one animal or of all here."""
    session = session_of(context)
    with session.ask() as ask:
        day = session.day(on, ask.book)
        if animal is not None:
            sheds = sheds_of(ask.book, ask.book.animal(animal), day)
            return shown(sheds, usual_ahead(ask, sheds))
        table = overview((s, usual_ahead(ask, s)) for s in sheds_here(ask.book, day))
    return Answer(f"Sheds, as of {day}", (table,))


def cycles(
    context: typer.Context, animal: AnimalName, since: Since = None, on: OnDay = None
) -> Answer:
    """The cycles of an animal as a timeline and a table."""
    session = session_of(context)
    with session.ask() as ask:
        book = ask.book
        day = session.day(on, book)
        subject = book.animal(animal)
        sheds = sheds_of(book, subject, day)
        first = session.typed_date(since, book).earliest if since else shown_since(sheds)
        if first > day:
            raise BadInput(f"--since {first} is after {day}; give an earlier day")
        drawn = timeline(sheds, first, usual_ahead(ask, sheds))
    table = cycles_table(sheds, first)
    return Answer(f"Cycles of {subject.label}, {first} to {day}", (drawn, table))
