"""`warmside habitat sweat`: where the walls of a described enclosure sweat."""

from __future__ import annotations

from typing import Annotated

import typer

from warmside.api import Answer, BadInput, Enclosure, Unit, parse_quantity, session_of
from warmside.plugins.habitat.air.moist import check_air, dew_point_c
from warmside.plugins.habitat.commands.stored import described_there
from warmside.plugins.habitat.commands.walls_typed import Thick, WallOf, typed_wall
from warmside.plugins.habitat.heat.sweating import zone_by_zone
from warmside.plugins.habitat.reading.vapour_here import AirHere, Damp, air_here
from warmside.plugins.habitat.telling.sweating import zones_parts


def sweat(
    context: typer.Context,
    enclosure: Annotated[str, typer.Argument(help="Code or name of the enclosure.")],
    room: Annotated[str, typer.Option(help="Temperature of the room: 18C.")],
    at: Annotated[
        str | None, typer.Option(help="Temperature where the humidity is so; else as last read.")
    ] = None,
    humidity: Annotated[str | None, typer.Option(help="Relative humidity there: 70%.")] = None,
    wall: WallOf = "glass",
    wall_thickness: Thick = "4mm",
) -> Answer:
    """Where a pane of the enclosure sweats, zone by zone, by the dew point of its air."""
    session = session_of(context)
    with session.ask() as ask:
        where, today = ask.book.enclosure(enclosure), ask.book.today
        found = described_there(ask.book, where, today)
        here = air_here(ask, where.id, found, today)
    damp = _damp(where, here, at, humidity)
    outside = parse_quantity(room, Unit.TEMPERATURE, what="--room")
    for celsius in (damp.celsius, outside):
        check_air(celsius, damp.percent)
    if not here.zones_c:
        raise BadInput(
            f"no zone of {where.code} was read in two weeks or has a target; "
            f"warmside record habitat.read {where.code} --zone 'cool side' --air 24C"
        )
    pane = typed_wall(wall, wall_thickness)
    zones = zone_by_zone(pane, here.zones_c, (damp.celsius, damp.percent), outside)
    parts = zones_parts(zones, here.read, damp.words, dew_point_c(damp.celsius, damp.percent))
    return Answer(f"Panes of {wall} in {where.code}, in a room of {room}", parts)


def _damp(where: Enclosure, here: AirHere, at: str | None, humidity: str | None) -> Damp:
    """What was typed, else what was read of late."""
    if (at is None) != (humidity is None):
        raise BadInput("the vapour needs --at and --humidity, both, as read at one place")
    if at is not None and humidity is not None:
        celsius = parse_quantity(at, Unit.TEMPERATURE, what="--at")
        return Damp(celsius, parse_quantity(humidity, Unit.PERCENT, what="--humidity"))
    if here.damp is None:
        raise BadInput(
            f"no zone of {where.code} was read with air and humidity in two weeks; "
            "give both: --at 24C --humidity 60%"
        )
    return here.damp
