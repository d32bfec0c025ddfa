"""The commands that keep the address book of vets."""

from __future__ import annotations

from typing import Annotated

import typer
from msgspec.structs import asdict, replace

from warmside.api import Answer, BadInput, Words, said, session_of
from warmside.plugins.health.reading.vets import vet_named, vets
from warmside.plugins.health.telling.vets import table
from warmside.plugins.health.vets.vet import NO, Vet, check, one_line

TAKE_BACK = "warmside undo (take it back)"
CALLED = Words("It stands on the sheets for a sitter and for an emergency.")


def show_vets(context: typer.Context) -> Answer:
    """List the vets: how to reach them, when, and whether they treat reptiles."""
    with session_of(context).read() as book:
        return Answer("Vets", (table(vets(book)),))


def keep_vet(
    context: typer.Context,
    name: Annotated[str, typer.Argument(help="Name of the practice or vet.")],
    telephone: Annotated[str | None, typer.Option(help="Telephone.")] = None,
    emergency: Annotated[str | None, typer.Option(help="Number for nights and Sundays.")] = None,
    hours: Annotated[str | None, typer.Option(help="Opening hours.")] = None,
    reptiles: Annotated[
        str | None, typer.Option(help="Whether they treat reptiles: yes, no, not known.")
    ] = None,
    address: Annotated[str | None, typer.Option(help="Address.")] = None,
    note: Annotated[str | None, typer.Option(help="A note.")] = None,
) -> Answer:
    """Enter a vet, or change what is said of one who is entered."""
    from warmside.plugins.health.tables import vet as vet_table

    typed = {
        "telephone": telephone,
        "emergency": emergency,
        "hours": hours,
        "reptiles": reptiles.casefold() if reptiles else reptiles,
        "address": address,
        "note": note,
    }
    given = {key: one_line(text) for key, text in typed.items() if text is not None}
    session, plain = session_of(context), one_line(name)
    with session.step(f"vet {plain}") as writer:
        known = next((v for v in vets(writer.book) if v.name.casefold() == plain.casefold()), None)
        if known is not None and not given:
            raise BadInput(f"{known.name} is entered; say what changes, such as --hours")
        new = replace(known or Vet(0, plain), **given)
        check(new)
        columns = {key: value for key, value in asdict(new).items() if key != "id"}
        if known is None:
            writer.insert(vet_table, **columns)
        else:
            writer.change(vet_table, {"id": known.id}, **columns)
        writer.say(f"{'entered' if known is None else 'changed'} the vet {new.name}")
    called = () if new.reptiles == NO else (CALLED,)
    return said(new.words, *called, hints=[TAKE_BACK])


def drop_vet(
    context: typer.Context,
    name: Annotated[str, typer.Argument(help="Name of the practice or vet.")],
) -> Answer:
    """Take a vet out of the list; what they said of animals stays on record."""
    from warmside.plugins.health.tables import vet as vet_table

    session = session_of(context)
    with session.step(f"vet {name} taken out") as writer:
        known = vet_named(writer.book, name)
        writer.remove(vet_table, {"id": known.id})
        writer.say(f"took the vet {known.name} out of the list")
    return said(f"{known.name} is no longer in the list", hints=[TAKE_BACK])
