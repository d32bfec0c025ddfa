"""The commands that follow a case: a visit, the vet's word on food, all that hangs on it."""

from __future__ import annotations

from typing import Annotated

import typer

from warmside.api import (
    Answer,
    BadInput,
    NewEvent,
    NotFound,
    recorded,
    session_of,
)
from warmside.plugins.health.cases.food_words import AS_TOLD, food_data
from warmside.plugins.health.kinds import CASE, EXAMINED, FOOD, OPEN
from warmside.plugins.health.reading.cases import entries_of
from warmside.plugins.health.telling.whole_case import whole_case

AnimalName = Annotated[str, typer.Argument(help="Code or name of the animal.")]
At = Annotated[str | None, typer.Option(help="When: 2026-03-05, yesterday …")]
Note = Annotated[str, typer.Option(help="A note.")]


def food(
    context: typer.Context,
    animal: AnimalName,
    says: Annotated[str, typer.Argument(help='"as usual", "no food", or the vet\'s words.')],
    by: Annotated[str, typer.Option(help="Which vet.")] = "",
    until: Annotated[str | None, typer.Option(help="Last day for which it holds.")] = None,
    at: At = None,
    note: Note = "",
) -> Answer:
    """Write down how a vet wants an animal fed while it is in treatment."""
    session = session_of(context)
    with session.step(f"food of {animal} as a vet said") as writer:
        book = writer.book
        found, when = book.animal(animal), session.when(at, book)
        data = food_data(says, by, session.typed_day(until, book) if until else None)
        if data["says"] == AS_TOLD and not data["words"]:
            raise BadInput('say what the vet said of its food: "as usual", "no food", or in words')
        writer.record(NewEvent(FOOD, when.day, data, found.id, at=when.at, note=note))
        writer.say(f"food of {found.label} as a vet said")
    with session.ask() as ask:
        return recorded(ask, writer.recorded)


def visit(
    context: typer.Context,
    animal: AnimalName,
    told: Annotated[str, typer.Option(help="What the vet said.")],
    by: Annotated[str, typer.Option(help="Which vet.")] = "",
    awaited: Annotated[str, typer.Option(help="What is awaited, as a result.")] = "",
    recheck: Annotated[str | None, typer.Option(help="Day of the recheck.")] = None,
    begin: Annotated[
        bool, typer.Option("--case", help="Begin a case with it, also of a healthy animal.")
    ] = False,
    at: At = None,
    note: Note = "",
) -> Answer:
    """Write down a visit to a vet, and what it means for the case that is open or begins."""
    session = session_of(context)
    with session.step(f"visit of {animal}") as writer:
        book = writer.book
        found, when = book.animal(animal), session.when(at, book)
        seen = {"by": by, "told": told}
        writer.record(NewEvent(EXAMINED, when.day, seen, found.id, at=when.at, note=note))
        if awaited or recheck or begin:
            day = session.typed_day(recheck, book) if recheck else None
            data = {"state": OPEN, "what": told, "awaited": awaited, "recheck": day}
            writer.record(NewEvent(CASE, when.day, data, found.id, at=when.at))
        writer.say(f"visit of {found.label} to a vet")
    with session.ask() as ask:
        return recorded(ask, writer.recorded)


def show_case(
    context: typer.Context,
    animal: AnimalName,
    since: Annotated[str | None, typer.Option(help="The case that ran on that day.")] = None,
) -> Answer:
    """Show the newest case of an animal with all that was recorded of it meanwhile."""
    session = session_of(context)
    with session.ask() as ask:
        book, whom = ask.book, ask.book.animal(animal)
        day = session.day(since, book)
        shown = whole_case(ask, whom, entries_of(book, whom.id), day)
        if shown is None:
            raise NotFound(
                f"{whom.label} has no case by {day}; see: warmside health cases {whom.code}"
            )
        return shown
