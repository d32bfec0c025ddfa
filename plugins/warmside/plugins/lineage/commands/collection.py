"""`warmside lineage collection`: how alike the animals here are, and how many founders they had."""

from __future__ import annotations

from typing import Annotated

import typer

from warmside.api import (
    Answer,
    NotFound,
    session_of,
)
from warmside.plugins.lineage.reading.group import group_here
from warmside.plugins.lineage.telling.group import group_shown


def collection(
    context: typer.Context,
    species: Annotated[str, typer.Argument(help="Scientific or common name.")],
    on: Annotated[str | None, typer.Option(help="As of that day.")] = None,
) -> Answer:
    """Mean kinship and founder equivalents of the animals of a species that are here."""
    session = session_of(context)
    with session.ask() as ask:
        book = ask.book
        kept = book.species_named(species)
        found = group_here(book, kept, session.day(on, book))
        if found is None:
            raise NotFound(f"no {kept.common or kept.scientific} is here")
        labels = {a.id: a.label for a in book.animals.values()}
    return group_shown(kept.scientific, found, labels)
