"""The commands for appointments, samples and vaccinations, and what is awaited of all animals."""

from __future__ import annotations

from typing import Annotated

import typer

from warmside.api import Answer, BadInput, NewEvent, recorded, session_of
from warmside.plugins.health.kinds import (
    APPOINTMENT,
    CANCELLED,
    HANDED_IN,
    RESULT,
    SAMPLE,
    VACCINATED,
)
from warmside.plugins.health.reading.appointments import pending_of
from warmside.plugins.health.telling.awaited import AS_WRITTEN, ONLY_A_VET, all_awaited_tables

AnimalName = Annotated[str, typer.Argument(help="Code or name of the animal.")]
At = Annotated[str | None, typer.Option(help="When: 2026-03-05, yesterday …")]
Note = Annotated[str, typer.Option(help="A note.")]


def appointment(
    context: typer.Context,
    animal: AnimalName,
    due: Annotated[str, typer.Argument(help="Its day: 2026-03-12, in 3 days …")],
    clock: Annotated[str | None, typer.Option(help="Its time: 10:30.")] = None,
    by: Annotated[str, typer.Option(help="With which vet.")] = "",
    what: Annotated[str, typer.Option(help="What for.")] = "",
    cancelled: Annotated[bool, typer.Option("--cancelled", help="It is off.")] = False,
    at: At = None,
    note: Note = "",
) -> Answer:
    """Write down an appointment with a vet, or that it is off; it is a task on its day."""
    session = session_of(context)
    with session.step(f"appointment of {animal}") as writer:
        book = writer.book
        found, when = book.animal(animal), session.when(at, book)
        day = session.typed_day(due, book)
        if cancelled and day not in [a.due for a in pending_of(book, found.id, when.day)]:
            raise BadInput(
                f"{found.label} has no appointment on {day}; see: warmside health awaited"
            )
        if day < when.day and not cancelled:
            raise BadInput(f"{day} is over; a visit is written down with: warmside health visit")
        state = CANCELLED if cancelled else None
        data = {"due": day, "clock": clock, "by": by, "what": what, "state": state}
        writer.record(NewEvent(APPOINTMENT, when.day, data, found.id, at=when.at, note=note))
        writer.say(f"{'cancelled an ' if cancelled else ''}appointment of {found.label} on {day}")
    with session.ask() as ask:
        return recorded(ask, writer.recorded)


def sample(
    context: typer.Context,
    animal: AnimalName,
    what: Annotated[str, typer.Argument(help="Of what: faeces, swab, blood …")],
    lab: Annotated[str, typer.Option(help="Which laboratory, or in-house.")] = "",
    number: Annotated[str, typer.Option(help="Number under which it is asked for.")] = "",
    expected: Annotated[str | None, typer.Option(help="Day for which it was promised.")] = None,
    at: At = None,
    note: Note = "",
) -> Answer:
    """Write down that a sample was handed in; its result is asked for in time."""
    session = session_of(context)
    with session.step(f"sample of {animal}") as writer:
        book = writer.book
        found, when = book.animal(animal), session.when(at, book)
        day = session.typed_day(expected, book) if expected else None
        data = {"what": what, "state": HANDED_IN, "lab": lab, "ref": number, "expected": day}
        writer.record(NewEvent(SAMPLE, when.day, data, found.id, at=when.at, note=note))
        writer.say(f"sample of {found.label}: {what}")
    with session.ask() as ask:
        return recorded(ask, writer.recorded)


def result(
    context: typer.Context,
    animal: AnimalName,
    what: Annotated[str, typer.Argument(help="Of what: faeces, swab, blood …")],
    says: Annotated[str, typer.Option(help="What it says, word for word.")],
    lab: Annotated[str, typer.Option(help="Which laboratory, or in-house.")] = "",
    number: Annotated[str, typer.Option(help="Number of the sample.")] = "",
    at: At = None,
    note: Note = "",
) -> Answer:
    """Write down the result of a sample, word for word; what it means a vet says."""
    session = session_of(context)
    with session.step(f"result of {animal}") as writer:
        book = writer.book
        found, when = book.animal(animal), session.when(at, book)
        data = {"what": what, "state": RESULT, "lab": lab, "ref": number, "says": says}
        writer.record(NewEvent(SAMPLE, when.day, data, found.id, at=when.at, note=note))
        writer.say(f"result of {found.label}: {what}")
    with session.ask() as ask:
        return recorded(ask, writer.recorded, AS_WRITTEN)


def vaccinated(
    context: typer.Context,
    animal: AnimalName,
    what: Annotated[str, typer.Argument(help="The vaccine, as the vet wrote it.")],
    by: Annotated[str, typer.Option(help="Which vet.")] = "",
    batch: Annotated[str, typer.Option(help="Its batch.")] = "",
    again: Annotated[str | None, typer.Option(help="The day for the next, as named.")] = None,
    at: At = None,
    note: Note = "",
) -> Answer:
    """Write down a vaccination that a vet gave; whether a species has one a vet says."""
    session = session_of(context)
    with session.step(f"vaccination of {animal}") as writer:
        book = writer.book
        found, when = book.animal(animal), session.when(at, book)
        day = session.typed_day(again, book) if again else None
        data = {"what": what, "by": by, "batch": batch, "again": day}
        writer.record(NewEvent(VACCINATED, when.day, data, found.id, at=when.at, note=note))
        writer.say(f"vaccination of {found.label}: {what}")
    with session.ask() as ask:
        return recorded(ask, writer.recorded, ONLY_A_VET)


def show_awaited(
    context: typer.Context,
    on: Annotated[str | None, typer.Option(help="As of that day.")] = None,
) -> Answer:
    """Show appointments, results that are awaited, and vaccinations to come, of all animals."""
    session = session_of(context)
    with session.read() as book:
        return Answer("Awaited", all_awaited_tables(book, session.day(on, book)))
