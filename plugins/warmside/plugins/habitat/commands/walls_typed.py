"""A wall of one layer as it is typed: what it is of, and how thick."""

from __future__ import annotations

from typing import Annotated

import typer

from warmside.api import BadInput, Unit, near_miss, parse_quantity
from warmside.plugins.habitat.described.enclosure import WALLS
from warmside.plugins.habitat.heat.materials import materials
from warmside.plugins.habitat.heat.walls import Layer

WallOf = Annotated[str, typer.Option(help=f"What it is of: {', '.join(WALLS)}.")]
Thick = Annotated[str, typer.Option(help="How thick it is.")]


def typed_wall(made_of: str, thick: str) -> Layer:
    """The layer at which it sweats first: the most that its material lets through."""
    if made_of not in WALLS:
        near = near_miss(made_of, WALLS)
        raise BadInput(f"--wall is one of {', '.join(WALLS)}, not {made_of!r}{near}")
    mm = parse_quantity(thick, Unit.LENGTH, what="--wall-thickness")
    if not 0 < mm < 500:
        raise BadInput(f"--wall-thickness is above 0, such as 4mm, not {thick}")
    return Layer(mm, materials()[made_of].conductivity.high)
