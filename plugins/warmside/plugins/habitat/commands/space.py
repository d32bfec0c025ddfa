"""`warmside habitat space`: an enclosure under published rules, and when it is outgrown."""

from __future__ import annotations

from typing import Annotated

import typer

from warmside.api import Answer, BadInput, NotFound, session_of

On = Annotated[str | None, typer.Option(help="As of that day; today unless named.")]


def space(
    context: typer.Context,
    enclosure: Annotated[str, typer.Argument(help="Code or name of the enclosure.")],
    on: On = None,
) -> Answer:
    """Each rule for who lives there: met now, by how much, and when growth outruns it."""
    from warmside.plugins.habitat.reading.rooms import box_of, residents
    from warmside.plugins.habitat.telling.outgrown import outgrown_parts

    session = session_of(context)
    with session.ask() as ask:
        where, day = ask.book.enclosure(enclosure), session.day(on, ask.book)
        box, display = box_of(ask, where.id, day), ask.book.home.display
        if box is None:
            raise BadInput(
                f"the size of {where.code} is not known: "
                f"warmside enclosure change {where.code} --width 120cm --depth 60cm --height 60cm"
            )
        found = residents(ask, where.id, box, day)
    if not found:
        raise NotFound(f"nobody lives in {where.code}; before buying: warmside habitat size --help")
    return Answer(f"Room in {where.code}", outgrown_parts(found, display))
