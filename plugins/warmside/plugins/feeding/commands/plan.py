"""`warmside feeding plan`: the next meal of one animal, or of all."""

from __future__ import annotations

from typing import Annotated

import typer

from warmside.api import Answer, BadInput, NotFound, session_of
from warmside.plugins.feeding.care.cautions import digest
from warmside.plugins.feeding.reading import Reading
from warmside.plugins.feeding.telling.plan import cautioned, no_row, parts
from warmside.plugins.feeding.telling.plans import all_parts


def plan(
    context: typer.Context,
    animal: Annotated[str | None, typer.Argument(help="Code or name.")] = None,
    everyone: Annotated[bool, typer.Option("--all", help="All animals here.")] = False,
    on: Annotated[str | None, typer.Option(help="As seen on that day.")] = None,
) -> Answer:
    """The next meal: when, how big, of what, and why."""
    if animal and everyone:
        raise BadInput("name one animal, or use --all, not both")
    if not animal and not everyone:
        raise BadInput("name an animal by code or name, or use --all")
    session = session_of(context)
    with session.ask() as ask:
        day = session.day(on, ask.book)
        return _one(Reading(ask, day, alone=True), animal) if animal else _all(Reading(ask, day))


def _one(reading: Reading, name: str) -> Answer:
    animal = reading.book.animal(name)
    if reading.species(animal.id) is None:
        raise NotFound(no_row(animal.species.scientific))
    return Answer(f"Feeding {animal.label}, as of {reading.on}", parts(reading, animal.id))


def _all(reading: Reading) -> Answer:
    ids = tuple(reading.book.animals_here(reading.on))
    table, species = all_parts(reading, ids)
    return Answer(f"Meals, as of {reading.on}", (table, *cautioned(digest(species))))
