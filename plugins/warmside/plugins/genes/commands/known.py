"""`warmside genes known` and `show`: recording what an animal carries, and what follows."""

from __future__ import annotations

from typing import Annotated

import typer

from warmside.api import Answer, NewEvent, recorded, session_of
from warmside.plugins.genes.inheritance.settled import settled
from warmside.plugins.genes.kinds import KNOWN
from warmside.plugins.genes.reading.family import kin_of
from warmside.plugins.genes.reading.worded import worded
from warmside.plugins.genes.telling.animal import shown

AnimalName = Annotated[str, typer.Argument(help="Code or name of the animal.")]


def known(
    context: typer.Context,
    animal: AnimalName,
    says: Annotated[str, typer.Argument(help='Such as "visual albino, 66 % het piebald".')],
    evidence: Annotated[
        str | None, typer.Option(help="seen, stated, tested or proven; looks are seen.")
    ] = None,
    at: Annotated[str | None, typer.Option(help="When: 2026-03-05, yesterday …")] = None,
    note: Annotated[str, typer.Option(help="Who says so, or which laboratory.")] = "",
) -> Answer:
    """Record what an animal carries.

    Without --evidence looks are seen, a "proven het" is proven, the rest is stated.
    """
    session = session_of(context)
    with session.step(f"genes of {animal}") as writer:
        found = writer.book.animal(animal)
        when = session.when(at, writer.book)
        for data in worded(writer.book, found, says, evidence):
            writer.record(NewEvent(KNOWN, when.day, data, found.id, at=when.at, note=note))
        writer.say(f"genes of {found.label}: {says}")
    with session.ask() as ask:
        return recorded(ask, writer.recorded)


def show(
    context: typer.Context,
    animal: AnimalName,
    on: Annotated[str | None, typer.Option(help="As of that day.")] = None,
) -> Answer:
    """What is recorded of an animal's genes, and the chances that follow from its family."""
    session = session_of(context)
    with session.ask() as ask:
        found = ask.book.animal(animal)
        kin = kin_of(ask, [found], session.day(on, ask.book))
        labels = {id: ask.book.animals[id].label for id in kin.said}
        return shown(found, kin, settled(kin.family), labels)
