"""`warmside genes clutch`: the looks of a clutch against what its parents should give."""

from __future__ import annotations

from typing import Annotated

import typer

from warmside.api import Answer, session_of
from warmside.plugins.genes.reading.clutches import clutch_test
from warmside.plugins.genes.telling.clutch import clutch_shown


def clutch(
    context: typer.Context,
    code: Annotated[str, typer.Argument(help="Code of the clutch.")],
    on: Annotated[str | None, typer.Option(help="As of that day.")] = None,
) -> Answer:
    """How odd the looks of a clutch are for its parents: the exact multinomial test."""
    session = session_of(context)
    with session.ask() as ask:
        found = ask.book.clutch(code)
        return clutch_shown(found.code, clutch_test(ask, found, session.day(on, ask.book)))
