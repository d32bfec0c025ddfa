"""`warmside feeding balance`: what an animal ate against what it burns."""

from __future__ import annotations

from typing import Annotated

import typer

from warmside.api import Answer, BadInput, NotFound, session_of
from warmside.plugins.feeding.planning.mass import NO_WEIGHT
from warmside.plugins.feeding.reading import Reading
from warmside.plugins.feeding.telling.balance import parts
from warmside.plugins.feeding.telling.plan import no_row

MOST_WEEKS = 104
NO_ENERGY = "what its kind burns is not known here; go by its weight and its looks, and ask a vet"


def balance(
    context: typer.Context,
    animal: Annotated[str, typer.Argument(help="Code or name.")],
    weeks: Annotated[int | None, typer.Option(help="Look back so many weeks.")] = None,
    on: Annotated[str | None, typer.Option(help="Up to that day.")] = None,
) -> Answer:
    """Energy eaten against energy burnt, with a chart: --save FILE.svg or FILE.pdf."""
    if weeks is not None and not 1 <= weeks <= MOST_WEEKS:
        raise BadInput(f"{weeks} weeks to look back; give 1 to {MOST_WEEKS}")
    session = session_of(context)
    with session.ask() as ask:
        found = ask.book.animal(animal)
        reading = Reading(ask, session.day(on, ask.book), alone=True)
        species = reading.species(found.id)
        if species is None:
            raise NotFound(no_row(found.species.scientific))
        if not species.has_stages:
            raise NotFound(f"{found.species.scientific}: {NO_ENERGY}")
        if reading.weighing(found.id) is None:
            raise BadInput(f"{found.label}: {NO_WEIGHT}")
        told = parts(reading, found.id, weeks)
    return Answer(f"Energy balance of {found.label}, up to {reading.on}", told)
