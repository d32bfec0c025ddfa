"""`warmside habitat water`: water to raise the air to a humidity, and how long it stays."""

from __future__ import annotations

import math
from typing import Annotated

import typer

from warmside.api import Answer, Unit, parse_quantity
from warmside.plugins.habitat.air.watered import watered
from warmside.plugins.habitat.telling.water import water_parts


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
    celsius = parse_quantity(at, Unit.TEMPERATURE, what="--at")
    now = parse_quantity(humidity, Unit.PERCENT, what="--humidity")
    wanted = parse_quantity(to, Unit.PERCENT, what="--to")
    across = parse_quantity(bowl, Unit.LENGTH, what="--bowl") if bowl is not None else None
    volume = math.prod(sides) if min(sides) > 0 else 0.0
    found = watered(volume, celsius, (now, wanted), changes, across)
    return Answer(f"Water for air of {at}", water_parts(found, to, changes))
