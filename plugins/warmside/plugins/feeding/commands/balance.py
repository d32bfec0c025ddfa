"""`warmside feeding balance`: what an animal ate against what it burns."""

from __future__ import annotations

from typing import Annotated

import typer

from warmside.api import Answer, BadInput, NotFound, session_of
from warmside.plugins.feeding.balance_told import parts
from warmside.plugins.feeding.mass import NO_WEIGHT
from warmside.plugins.feeding.plan_told import no_row
from warmside.plugins.feeding.reading import Reading

MOST_WEEKS = 104


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
    with session.read() as book:
        found = book.animal(animal)
        reading = Reading(book, session.day(on, book))
        if reading.species(found.id) is None:
            raise NotFound(no_row(found.species.scientific))
        if reading.weighing(found.id) is None:
            raise BadInput(f"{found.label}: {NO_WEIGHT}")
        told = parts(reading, found.id, weeks)
    return Answer(f"Energy balance of {found.label}, up to {reading.on}", told)
