"""`warmside lineage handover`: all that goes with an animal to its next keeper."""

from __future__ import annotations

from typing import Annotated

import typer

from warmside.api import Answer, session_of
from warmside.plugins.lineage.telling.papers import handover as handed


def handover(
    context: typer.Context,
    animal: Annotated[str, typer.Argument(help="Code or name of the animal.")],
    to: Annotated[str, typer.Option(help="To whom it goes.")] = "",
    last: Annotated[int, typer.Option(help="So many events of its history.", min=1)] = 60,
    on: Annotated[str | None, typer.Option(help="As of that day.")] = None,
) -> Answer:
    """A hand-over sheet with a part of every plugin: save it with --save fern.pdf."""
    session = session_of(context)
    with session.ask() as ask:
        day = session.day(on, ask.book)
        return handed(ask, ask.book.animal(animal), to, day, last)
