"""`warmside feeding diet`: what an animal, or all of its species, is fed, part by part."""

from __future__ import annotations

from collections.abc import Callable
from typing import Annotated

import typer

from warmside.api import (
    Animal,
    Answer,
    Ask,
    BadInput,
    Column,
    NotFound,
    StepWriter,
    Table,
    Unit,
    said,
    session_of,
)
from warmside.plugins.feeding.care.diets import diet_named, named_diets
from warmside.plugins.feeding.care.own import parse_prey, parse_span
from warmside.plugins.feeding.care.own_diet import (
    OwnPart,
    from_named,
    from_species,
    on_own_diet,
    with_part_set,
)
from warmside.plugins.feeding.care.species import Species, unknown_kind
from warmside.plugins.feeding.reading import Reading
from warmside.plugins.feeding.reading.noted import own_diets
from warmside.plugins.feeding.tables import part as table

app = typer.Typer(help="What an animal or a species is fed.", no_args_is_help=True)
Name = Annotated[str, typer.Argument(help="Code or name.")]
Alone = Annotated[bool, typer.Option("--alone", help="For this animal, not for its species.")]
UNDO = "warmside undo (take it back)"
COLUMNS = (Column("diet", "diet"), Column("words", "what it is"), Column("parts", "how often"))
Owner = tuple[str, int]
Change = Callable[[Species, tuple[OwnPart, ...]], tuple[OwnPart, ...]]


@app.command("list")
def list_diets(context: typer.Context) -> Answer:
    """List the diets to start from."""
    rows = tuple((d.name, d.words, d.said(None)) for d in named_diets().values())
    return Answer("Diets", (Table("diets", COLUMNS, rows),))


@app.command("set")
def set_diet(
    context: typer.Context,
    animal: Name,
    diet: Annotated[str, typer.Argument(help="A diet of the list: insects, plants, eggs.")],
    alone: Alone = False,
) -> Answer:
    """Say once what a species eats; the shares of body mass are set part by part."""
    parts = from_named(diet_named(diet))
    return _stored(context, animal, alone, lambda _species, _known: parts)


@app.command("part")
def set_part(
    context: typer.Context,
    animal: Name,
    part: Annotated[str, typer.Argument(help="A part of the diet: greens, insects.")],
    every: Annotated[str | None, typer.Option(help="Days from one to the next: 3-4.")] = None,
    meal: Annotated[str | None, typer.Option(help="Percent of body mass: 1-2.")] = None,
    food: Annotated[str | None, typer.Option(help="Kinds or classes: cricket,locust.")] = None,
    drop: Annotated[bool, typer.Option("--drop", help="It is not fed this part.")] = False,
    alone: Alone = False,
) -> Answer:
    """Change one part of a diet, or add one; what is not named stays as it is."""
    if not (every or meal or food or drop):
        raise BadInput("nothing to set; name what, such as --every 3-4, or --drop")
    new = OwnPart(
        part.strip().lower(),
        foods=parse_prey(food) if food else (),
        days=parse_span(every, Unit.DAYS, "every") if every else None,
        percent=parse_span(meal, Unit.PERCENT, "meal") if meal else None,
    )

    def change(species: Species, known: tuple[OwnPart, ...]) -> tuple[OwnPart, ...]:
        before = known or from_species(species)
        if drop:
            return _without(before, new.part)
        if not new.foods and all(p.part != new.part for p in before):
            raise BadInput(f"there is no part {new.part}; say what it is made of: --food")
        if not (new.days or species.part.days or any(p.part == new.part for p in before)):
            raise BadInput(f"nothing tells how often {new.part} is fed; say so: --every 3-4")
        return with_part_set(before, new)

    return _stored(context, animal, alone, change)


def _without(parts: tuple[OwnPart, ...], key: str) -> tuple[OwnPart, ...]:
    left = tuple(p for p in parts if p.part != key)
    if not left or len(left) == len(parts):
        names = ", ".join(p.part for p in parts)
        raise BadInput(f"{key} cannot be dropped; the parts are {names}, and one must stay")
    return left


@app.command()
def drop(context: typer.Context, animal: Name, alone: Alone = False) -> Answer:
    """Feed an animal, or its species, as the shipped row says again."""
    session = session_of(context)
    with session.step(f"diet of {animal} dropped") as writer:
        found = writer.book.animal(animal)
        owner = _owner(found, alone)
        if owner not in own_diets(writer.book):
            raise NotFound(f"no diet is set for {_whom(found, alone)}")
        _clear(writer, owner)
        words = f"{_whom(found, alone)}: the diet that was set is dropped"
        writer.say(words)
    return said(words, hints=[UNDO])


def _stored(context: typer.Context, name: str, alone: bool, change: Change) -> Answer:
    """Write the parts that `change` makes of those before; tell the whole diet."""
    session = session_of(context)
    with session.step(f"diet of {name} set") as writer:
        found = writer.book.animal(name)
        owner = _owner(found, alone)
        species = _plain_species(session.asking(writer.book), found)
        known = own_diets(writer.book)
        before = known.get(owner) or known.get(("species", found.species.id), ())
        parts = change(species, before)
        told = on_own_diet(species, parts).diet.said(None)
        _clear(writer, owner)
        for one in parts:
            _insert(writer, owner, one)
        words = f"{_whom(found, alone)}: {told}"
        writer.say(f"diet of {words}")
    see = f"warmside feeding plan {found.code} (see what follows)"
    return said(words, hints=[see, UNDO])


def _plain_species(ask: Ask, animal: Animal) -> Species:
    found, kind = Reading(ask, ask.book.today, alone=True).shipped(animal.id), animal.species
    return found or unknown_kind(kind.scientific, kind.common)


def _owner(animal: Animal, alone: bool) -> Owner:
    return ("animal", animal.id) if alone else ("species", animal.species.id)


def _whom(animal: Animal, alone: bool) -> str:
    return animal.label if alone else animal.species.common


def _clear(writer: StepWriter, owner: Owner) -> None:
    kind, id = owner
    sql = f"SELECT id FROM feeding_part WHERE {kind}_id = ?"
    for (row,) in writer.book.rows(sql, [id]):
        writer.remove(table, {"id": row})


def _insert(writer: StepWriter, owner: Owner, one: OwnPart) -> None:
    days, percent = one.days or (None, None), one.percent or (None, None)
    writer.insert(
        table,
        animal_id=owner[1] if owner[0] == "animal" else None,
        species_id=owner[1] if owner[0] == "species" else None,
        diet=one.diet,
        part=one.part,
        foods=",".join(one.foods),
        days_low=days[0],
        days_high=days[1],
        percent_low=percent[0],
        percent_high=percent[1],
    )
