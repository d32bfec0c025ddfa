"""`warmside animal`: animals and their parents."""

from __future__ import annotations

from typing import Annotated

import typer

from warmside.core.answers.parts import Answer
from warmside.core.asking.own_values import CORE, names_of
from warmside.core.asking.subjects.cards import animal_card
from warmside.core.asking.subjects.listings import animals
from warmside.core.doing.entering import NewAnimal, alter_animal, enter_animal
from warmside.core.doing.kin import Parents, record_parents
from warmside.core.doing.setting import NewValue, set_value
from warmside.core.record.entities import SEX_KNOWN_BY
from warmside.core.session.session import session_of

app = typer.Typer(help="Animals and their parents.", no_args_is_help=True)

Sex = Annotated[str, typer.Option(help="female, male or unknown.")]
KnownBy = Annotated[str, typer.Option(help=", ".join(SEX_KNOWN_BY))]
Hatched = Annotated[str, typer.Option(help="Hatch date: 2023, 2023-07 or 2023-07-14.")]
Name = Annotated[str, typer.Argument(help="Code or name.")]
VALUES_OF_ANIMALS = names_of("animal")


@app.command()
def add(
    context: typer.Context,
    name: Annotated[str, typer.Argument(help="Name of the animal.")],
    species: Annotated[
        str, typer.Option(help="Scientific or common name; else that of the clutch.")
    ] = "",
    code: Annotated[str | None, typer.Option(help="Short code; else one is suggested.")] = None,
    sex: Sex = "unknown",
    sex_known_by: KnownBy = "not known",
    hatched: Hatched = "",
    origin: Annotated[str, typer.Option(help="Where it comes from.")] = "",
    enclosure: Annotated[str | None, typer.Option(help="Enclosure.")] = None,
    since: Annotated[str | None, typer.Option(help="Here since that day, month or year.")] = None,
    clutch: Annotated[str | None, typer.Option(help="The clutch that it hatched from.")] = None,
    ancestor: Annotated[bool, typer.Option(help="Never kept here, only an ancestor.")] = False,
    note: Annotated[str, typer.Option(help="A note.")] = "",
    confirm: Annotated[bool, typer.Option(help="It is right, though it looks odd.")] = False,
) -> Answer:
    """Enter an animal that is here already, or an ancestor. A newcomer: `warmside arrive`."""
    wanted = NewAnimal(
        name, species, code, sex, sex_known_by, hatched, origin, note, enclosure, clutch
    )
    session = session_of(context)
    return enter_animal(session, wanted, since=since, ancestor=ancestor, confirmed=confirm)


@app.command("list")
def list_animals(
    context: typer.Context,
    everyone: Annotated[
        bool, typer.Option("--all", help="Also ancestors and those no longer here.")
    ] = False,
    room: Annotated[str | None, typer.Option(help="Only in this room.")] = None,
    on: Annotated[str | None, typer.Option(help="As it was on that day.")] = None,
) -> Answer:
    """List the animals, where they are and who holds them."""
    session = session_of(context)
    with session.read() as book:
        return animals(book, session.day(on, book), everyone=everyone, room=room)


@app.command()
def show(context: typer.Context, animal: Name) -> Answer:
    """Show one animal: who it is, its parents and young, where it was and is."""
    with session_of(context).ask() as ask:
        return animal_card(ask, ask.book.animal(animal))


@app.command()
def change(
    context: typer.Context,
    animal: Name,
    name: Annotated[str | None, typer.Option(help="New name.")] = None,
    code: Annotated[str | None, typer.Option(help="New code.")] = None,
    species: Annotated[str | None, typer.Option(help="Scientific or common name.")] = None,
    sex: Annotated[str | None, typer.Option(help="female, male or unknown.")] = None,
    sex_known_by: Annotated[str | None, typer.Option(help=", ".join(SEX_KNOWN_BY))] = None,
    hatched: Annotated[str | None, typer.Option(help="2023, 2023-07 or 2023-07-14.")] = None,
    origin: Annotated[str | None, typer.Option(help="Where it comes from.")] = None,
    clutch: Annotated[str | None, typer.Option(help="The clutch that it hatched from.")] = None,
    note: Annotated[str | None, typer.Option(help="A note.")] = None,
) -> Answer:
    """Change what was entered of an animal."""
    values = {
        "name": name,
        "code": code,
        "species_name": species,
        "sex": sex,
        "sex_known_by": sex_known_by,
        "hatched": hatched,
        "origin": origin,
        "clutch": clutch,
        "note": note,
    }
    return alter_animal(session_of(context), animal, values)


@app.command("set")
def set_own(
    context: typer.Context,
    animal: Name,
    name: Annotated[str, typer.Argument(help=VALUES_OF_ANIMALS)],
    value: Annotated[str, typer.Argument(help="The value, or: default.")],
    note: Annotated[str, typer.Option(help="Where it comes from, such as a vet.")] = "",
) -> Answer:
    """Set what all plugins read of an animal: its target mass, from when on it is an adult."""
    wanted = NewValue(CORE.name, name, value, animal=animal, note=note)
    return set_value(session_of(context), wanted, CORE)


@app.command()
def parents(
    context: typer.Context,
    child: Name,
    dam: Annotated[
        list[str] | None, typer.Option(help="The mother; one of several with its weight: ASH=0.7.")
    ] = None,
    sire: Annotated[
        list[str] | None, typer.Option(help="The father; one of several with its weight: PEP=0.7.")
    ] = None,
    certainty: Annotated[
        str | None, typer.Option(help="certain, probable or possible, where there is no weight.")
    ] = None,
) -> Answer:
    """Record an animal's dam, sire or both. Of several that may be, name each."""
    wanted = Parents(child, tuple(dam or ()), tuple(sire or ()), certainty)
    return record_parents(session_of(context), wanted)
