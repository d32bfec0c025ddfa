"""`warmside arrive` and `warmside return`: animals that come."""

from __future__ import annotations

from typing import Annotated

import typer

from warmside.cli.commands.recording import record_for_animals, recorded
from warmside.core.answers.parts import Answer
from warmside.core.record.entities import SEX_KNOWN_BY, Animal
from warmside.core.record.entries import add_animal
from warmside.core.record.steps import StepWriter
from warmside.core.session.session import session_of
from warmside.core.values.errors import BadInput, NotFound, Refused

arrive_app = typer.Typer()
return_app = typer.Typer()

Enclosure = Annotated[
    str | None,
    typer.Option("--enclosure", help="Where it goes."),
]
At = Annotated[str | None, typer.Option(help="When: 2026-03-05, yesterday, 08:30 …")]
Confirm = Annotated[bool, typer.Option(help="It is right, though it looks odd.")]


@arrive_app.command("")
def arrive(
    context: typer.Context,
    animal: Annotated[str, typer.Argument(help="Name of the newcomer, or code of a known animal.")],
    species: Annotated[str | None, typer.Option(help="Scientific or common name.")] = None,
    how: Annotated[
        str, typer.Option(help="bought, gift, bred here, rescued or on loan here.")
    ] = "bought",
    source: Annotated[str, typer.Option("--from", help="From whom.")] = "",
    terms: Annotated[str, typer.Option(help="Terms of the purchase or loan.")] = "",
    enclosure: Enclosure = None,
    code: Annotated[str | None, typer.Option(help="Short code; else one is suggested.")] = None,
    sex: Annotated[str, typer.Option(help="female, male or unknown.")] = "unknown",
    sex_known_by: Annotated[str, typer.Option(help=", ".join(SEX_KNOWN_BY))] = "not known",
    hatched: Annotated[str, typer.Option(help="2023, 2023-07 or 2023-07-14.")] = "",
    at: At = None,
    note: Annotated[str, typer.Option(help="A note.")] = "",
    confirm: Confirm = False,
) -> Answer:
    """Take in a new animal: enter it and record its arrival. One that came back: `return`."""
    session = session_of(context)
    with session.step(f"{animal} arrived", confirmed=confirm) as writer:
        if species is None:
            arriving = known_newcomer(writer, animal)
        else:
            arriving = add_animal(
                writer,
                animal,
                species,
                code=code,
                sex=sex,
                sex_known_by=sex_known_by,
                hatched=hatched,
                origin=source,
            )
        typed = {"how": how, "source": source, "terms": terms}
        record_for_animals(session, writer, "arrived", [arriving.code], typed, at, note, enclosure)
    return recorded(session, writer.recorded)


def known_newcomer(writer: StepWriter, name: str) -> Animal:
    """The animal of that name that is known but not here."""
    try:
        animal = writer.book.animal(name)
    except NotFound:
        raise BadInput(f"{name!r} is not known yet; add --species to enter it") from None
    if writer.book.whereabouts()[animal.id].custody.is_here:
        raise Refused(f"{animal.label} is here already; to move it: warmside move")
    return animal


@return_app.command("")
def come_back(
    context: typer.Context,
    animals: Annotated[list[str], typer.Argument(help="Codes or names.")],
    after: Annotated[str, typer.Option(help="loan, show, boarding or vet stay.")] = "loan",
    source: Annotated[str, typer.Option("--from", help="From whom.")] = "",
    enclosure: Enclosure = None,
    at: At = None,
    note: Annotated[str, typer.Option(help="A note.")] = "",
    confirm: Confirm = False,
) -> Answer:
    """Record that animals came back from a loan, a show, a boarding or the vet."""
    session = session_of(context)
    with session.step("returned", confirmed=confirm) as writer:
        typed = {"after": after, "source": source}
        record_for_animals(session, writer, "returned", animals, typed, at, note, enclosure)
    return recorded(session, writer.recorded)
