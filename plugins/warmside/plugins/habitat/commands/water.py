"""`warmside habitat water`: water to raise the air to a humidity, and how long it stays."""

from __future__ import annotations

import math
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
from warmside.plugins.habitat.air.moist import check_air, vapour_g_per_m3
from warmside.plugins.habitat.air.water import bowl_g_per_h, grams_to_reach, hours_to_dry

BALANCE = Source("mass balance of well mixed air", Mark.COMMON_PRACTICE)
POOL = Source("ASHRAE HVAC Applications, natatoriums, SI form", Mark.FROM_MEMORY)
CAUTION = (
    "An upper estimate: still air takes up less than the pool halls that the formula is from, and "
    "walls and substrate take up water too. A hygrometer decides."
)


def water(
    context: typer.Context,
    width: Annotated[str, typer.Option(help="Width: 120cm.")],
    depth: Annotated[str, typer.Option(help="Depth: 60cm.")],
    height: Annotated[str, typer.Option(help="Height: 60cm.")],
    at: Annotated[str, typer.Option(help="Temperature of the air: 27C.")],
    humidity: Annotated[str, typer.Option(help="Humidity now, and of the room: 45%.")],
    to: Annotated[str, typer.Option(help="Humidity wanted: 70%.")],
    bowl: Annotated[str | None, typer.Option(help="Diameter of the water bowl: 20cm.")] = None,
    changes: Annotated[
        float, typer.Option(help="How often an hour the air is changed.", min=0.01, max=100)
    ] = 1.0,
) -> Answer:
    """Grams that raise the air to a humidity, hours until it is half lost, what a bowl gives."""
    sides = [parse_quantity(t, Unit.LENGTH, what="size") / 1000 for t in (width, depth, height)]
    if min(sides) <= 0:
        raise BadInput("width, depth and height are more than 0")
    celsius = parse_quantity(at, Unit.TEMPERATURE, what="--at")
    now, wanted = (
        parse_quantity(t, Unit.PERCENT, what=o) for t, o in ((humidity, "--humidity"), (to, "--to"))
    )
    for percent in (now, wanted):
        check_air(celsius, percent)
    if wanted <= now:
        raise BadInput(f"--to {to} is not more than --humidity {humidity}: nothing is to be added")
    volume = math.prod(sides)
    grams = grams_to_reach(volume, celsius, now, wanted)
    room, then = vapour_g_per_m3(celsius, now), vapour_g_per_m3(celsius, wanted)
    half = hours_to_dry(then, room, (room + then) / 2, changes)
    parts: list[Part] = [
        Fact("water", f"water to reach {to}", grams, Unit.MASS, Basis("of the air alone", BALANCE)),
        Fact(
            "half_lost",
            "half of that is lost after",
            half,
            Unit.HOURS,
            Basis(f"{changes:g} changes of air an hour", BALANCE),
        ),
        Fact("kept_up", "to keep it up, an hour", grams * changes, Unit.MASS),
    ]
    if bowl is not None:
        radius = parse_quantity(bowl, Unit.LENGTH, what="--bowl") / 2000
        given = bowl_g_per_h(math.pi * radius**2, celsius, celsius, now)
        basis = Basis("open water, at most", POOL)
        parts.append(Fact("bowl", "the bowl gives an hour, at most", given, Unit.MASS, basis))
    return Answer(f"Water for air of {at}", (*parts, *paragraphs(CAUTION, tone=Tone.CAUTION)))
