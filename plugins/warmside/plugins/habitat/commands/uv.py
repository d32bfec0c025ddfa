"""`warmside habitat uv`: the UV zone of those inside against the index that was measured."""

from __future__ import annotations

from typing import Annotated

import typer

from warmside.api import Answer, session_of
from warmside.plugins.habitat.reading.uv_here import uv_here
from warmside.plugins.habitat.telling.uv import uv_parts


def uv(
    context: typer.Context,
    enclosure: Annotated[str, typer.Argument(help="Code or name of the enclosure.")],
    on: Annotated[str | None, typer.Option(help="As of that day; today unless named.")] = None,
) -> Answer:
    """The UV index that those inside should have where they bask, and what was measured."""
    session = session_of(context)
    with session.ask() as ask:
        where, day = ask.book.enclosure(enclosure), session.day(on, ask.book)
        found = uv_here(ask, where.id, day)
    return Answer(f"UV in {where.code}", tuple(uv_parts(where.code, found)))
