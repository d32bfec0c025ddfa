"""`warmside habitat heat`: watts, cost and a power cut of a described enclosure."""

from __future__ import annotations

from typing import Annotated

import typer

from warmside.api import Answer, BadInput, Unit, parse_quantity, session_of
from warmside.plugins.habitat.commands.stored import described_there
from warmside.plugins.habitat.heat.covered import Coil, coil_of
from warmside.plugins.habitat.reading.heated import heated
from warmside.plugins.habitat.telling.heat import Asked, heat_parts


def heat(
    context: typer.Context,
    enclosure: Annotated[str, typer.Argument(help="Code or name of the enclosure.")],
    room: Annotated[str, typer.Option(help="Temperature of the room: 20C.")],
    hold: Annotated[
        str | None, typer.Option(help="To be held inside; else the warmest zone's target.")
    ] = None,
    limit: Annotated[
        str | None, typer.Option(help="Safe down to, of your species, for a power cut: 18C.")
    ] = None,
    price: Annotated[float | None, typer.Option(help="Of a kilowatt-hour, in your money.")] = None,
    length: Annotated[
        str | None, typer.Option(help="Of a snake: 120cm; else of those inside, as measured.")
    ] = None,
    girth: Annotated[str | None, typer.Option(help="Of a snake at its thickest: 13cm.")] = None,
) -> Answer:
    """Watts to hold it, whether its heat is enough or too much, and how long it stays warm."""
    session = session_of(context)
    with session.ask() as ask:
        where, today = ask.book.enclosure(enclosure), ask.book.today
        found = described_there(ask.book, where, today)
        known = heated(ask, where.id, found, today)
        display = ask.book.home.display
    if price is not None and not 0 <= price < 1e6:
        raise BadInput(f"--price is from 0 on, not {price:g}")
    if (length is None) != (girth is None):
        raise BadInput("a coil needs --length and --girth, both")
    warmest = found.zones[0].name
    inside = _celsius(hold, "hold") if hold else known.zones_c.get(warmest)
    if inside is None:
        raise BadInput("its warmest zone has no target; give --hold 30C, or describe it")
    asked = Asked(
        _celsius(room, "room"),
        inside,
        _celsius(limit, "limit") if limit else None,
        price,
    )
    others = {zone: held for zone, held in known.zones_c.items() if zone != warmest}
    known = known._replace(zones_c={warmest: inside, **others})
    if length is not None and girth is not None:
        known = known._replace(coils=(_typed_coil(length, girth),))
    parts = heat_parts(found, asked, known, display)
    return Answer(f"Heat of {where.code} in a room of {room}", parts)


def _celsius(text: str, what: str) -> float:
    value = parse_quantity(text, Unit.TEMPERATURE, what=f"--{what}")
    if not -40 <= value <= 60:
        raise BadInput(f"--{what} of {value:g} °C cannot be; Fahrenheit is written with F")
    return value


def _typed_coil(length: str, girth: str) -> Coil:
    long, around = _above_0(length, "length"), _above_0(girth, "girth")
    return coil_of("", (long, long), (around, around))


def _above_0(text: str, what: str) -> float:
    value = parse_quantity(text, Unit.LENGTH, what=f"--{what}")
    if value <= 0:
        raise BadInput(f"--{what} is above 0, not {text}")
    return value
