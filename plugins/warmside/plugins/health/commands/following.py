"""The commands that follow a case: a visit, the vet's word on food, all that hangs on it."""

from __future__ import annotations

from typing import Annotated

import typer

from warmside.api import Answer, BadInput, NotFound, session_of
from warmside.plugins.health.cases.food_words import AS_TOLD, food_data
from warmside.plugins.health.commands.entering import AnimalName, At, By, Note, Whom, entered
from warmside.plugins.health.kinds import CASE, EXAMINED, FOOD, OPEN
from warmside.plugins.health.reading.cases import entries_of
from warmside.plugins.health.telling.whole_case import whole_case


def food(
    context: typer.Context,
    animal: AnimalName,
    says: Annotated[str, typer.Argument(help='"as usual", "no food", or the vet\'s words.')],
    by: By = "",
    until: Annotated[str | None, typer.Option(help="Last day for which it holds.")] = None,
    at: At = None,
    note: Note = "",
) -> Answer:
    """Write down how a vet wants an animal fed while it is in treatment."""
    whom = Whom(animal, at, note)
    with entered(context, whom, lambda x: f"food of {x} as a vet said") as entry:
        data = food_data(says, by, entry.day(until))
        if data["says"] == AS_TOLD and not data["words"]:
            raise BadInput('say what the vet said of its food: "as usual", "no food", or in words')
        entry.record(FOOD, data)
    return entry.told()


def visit(
    context: typer.Context,
    animal: AnimalName,
    told: Annotated[str, typer.Option(help="What the vet said.")],
    by: By = "",
    awaited: Annotated[str, typer.Option(help="What is awaited, as a result.")] = "",
    recheck: Annotated[str | None, typer.Option(help="Day of the recheck.")] = None,
    begin: Annotated[
        bool, typer.Option("--case", help="Begin a case with it, also of a healthy animal.")
    ] = False,
    at: At = None,
    note: Note = "",
) -> Answer:
    """Write down a visit to a vet, and what it means for the case that is open or begins."""
    with entered(context, Whom(animal, at, note), lambda x: f"visit of {x} to a vet") as entry:
        entry.record(EXAMINED, {"by": by, "told": told})
        if awaited or recheck or begin:
            data = {"state": OPEN, "what": told, "awaited": awaited, "recheck": entry.day(recheck)}
            entry.record(CASE, data, noted=False)
    return entry.told()


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
