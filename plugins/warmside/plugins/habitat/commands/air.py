"""`warmside habitat air`: the same vapour at another temperature."""

from __future__ import annotations

from typing import Annotated

import typer

from warmside.api import (
    Answer,
    BadInput,
    Basis,
    Fact,
    Mark,
    Part,
    Source,
    Tone,
    Unit,
    paragraphs,
    parse_quantity,
)
from warmside.plugins.habitat.air.moist import (
    check_air,
    dew_point_c,
    humidity_at,
    vapour_g_per_m3,
)
from warmside.plugins.habitat.commands.walls_typed import Thick, WallOf, typed_wall
from warmside.plugins.habitat.heat.sweating import sweat
from warmside.plugins.habitat.telling.sweating import wall_parts

ASHRAE = Source("ASHRAE Fundamentals 2017, chapter 1, equations 5 and 6", Mark.SECONDARY)
SAME = "the same vapour at every place of one air space; air that is not mixed differs"


def air(
    context: typer.Context,
    at: Annotated[str, typer.Option(help="Temperature of the air: 24C.")],
    humidity: Annotated[str, typer.Option(help="Relative humidity there: 60%.")],
    to: Annotated[str | None, typer.Option(help="Temperature at the other place: 31C.")] = None,
    room: Annotated[
        str | None, typer.Option(help="Temperature of the room: does a wall between them sweat?")
    ] = None,
    wall: WallOf = "glass",
    wall_thickness: Thick = "4mm",
) -> Answer:
    """Dew point, water in the air, its humidity where it is warmer, and whether glass sweats."""
    celsius = parse_quantity(at, Unit.TEMPERATURE, what="--at")
    percent = parse_quantity(humidity, Unit.PERCENT, what="--humidity")
    check_air(celsius, percent)
    if percent == 0:
        raise BadInput("--humidity is above 0: air without any water has no dew point")
    parts: list[Part] = [
        Fact(
            "dew_point",
            "dew point",
            dew_point_c(celsius, percent),
            Unit.TEMPERATURE,
            Basis("what is colder sweats", ASHRAE),
        ),
        Fact("vapour", "water in the air", vapour_g_per_m3(celsius, percent), Unit.VAPOUR),
    ]
    if to is not None:
        other = parse_quantity(to, Unit.TEMPERATURE, what="--to")
        check_air(other, percent)
        there = humidity_at(celsius, percent, other)
        fact = Fact("humidity", f"humidity at {to}", there, Unit.PERCENT, Basis(SAME, ASHRAE))
        parts.append(fact)
        if there >= 100:
            parts += paragraphs(f"At {to} water condenses.")
    if room is not None:
        outside = parse_quantity(room, Unit.TEMPERATURE, what="--room")
        check_air(outside, percent)
        parts += wall_parts(sweat(typed_wall(wall, wall_thickness), celsius, percent, outside))
    parts += paragraphs("An estimate never replaces a hygrometer at the place.", tone=Tone.CAUTION)
    return Answer(f"Air of {at} at {humidity}", tuple(parts))
