"""The commands for appointments, samples and vaccinations, and what is awaited of all animals."""

from __future__ import annotations

from typing import Annotated

import typer

from warmside.api import Answer, BadInput, session_of
from warmside.plugins.health.commands.entering import AnimalName, At, By, Note, Whom, entered
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
    off = "cancelled an " if cancelled else ""
    with entered(context, Whom(animal, at, note), lambda x: f"{off}appointment of {x}") as entry:
        found, day = entry.animal, entry.session.typed_day(due, entry.book)
        known = [a.due for a in pending_of(entry.book, found.id, entry.when.day)]
        if cancelled and day not in known:
            raise BadInput(
                f"{found.label} has no appointment on {day}; see: warmside health awaited"
            )
        if day < entry.when.day and not cancelled:
            raise BadInput(f"{day} is over; a visit is written down with: warmside health visit")
        state = CANCELLED if cancelled else None
        data = {"due": day, "clock": clock, "by": by, "what": what, "state": state}
        entry.record(APPOINTMENT, data)
        entry.writer.say(f"{off}appointment of {found.label} on {day}")
    return entry.told()


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
    whom = Whom(animal, at, note)
    with entered(context, whom, lambda x: f"sample of {x}: {what}") as entry:
        data = {"what": what, "state": HANDED_IN, "lab": lab, "ref": number}
        entry.record(SAMPLE, {**data, "expected": entry.day(expected)})
    return entry.told()


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
    whom = Whom(animal, at, note)
    with entered(context, whom, lambda x: f"result of {x}: {what}") as entry:
        data = {"what": what, "state": RESULT, "lab": lab, "ref": number, "says": says}
        entry.record(SAMPLE, data)
    return entry.told(AS_WRITTEN)


def vaccinated(
    context: typer.Context,
    animal: AnimalName,
    what: Annotated[str, typer.Argument(help="The vaccine, as the vet wrote it.")],
    by: By = "",
    batch: Annotated[str, typer.Option(help="Its batch.")] = "",
    again: Annotated[str | None, typer.Option(help="The day for the next, as named.")] = None,
    at: At = None,
    note: Note = "",
) -> Answer:
    """Write down a vaccination that a vet gave; whether a species has one a vet says."""
    whom = Whom(animal, at, note)
    with entered(context, whom, lambda x: f"vaccination of {x}: {what}") as entry:
        data = {"what": what, "by": by, "batch": batch, "again": entry.day(again)}
        entry.record(VACCINATED, data)
    return entry.told(ONLY_A_VET)


def show_awaited(
    context: typer.Context,
    on: Annotated[str | None, typer.Option(help="As of that day.")] = None,
) -> Answer:
    """Show appointments, results that are awaited, and vaccinations to come, of all animals."""
    session = session_of(context)
    with session.read() as book:
        return Answer("Awaited", all_awaited_tables(book, session.day(on, book)))
