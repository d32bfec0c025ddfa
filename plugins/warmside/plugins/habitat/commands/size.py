"""`warmside habitat size`: an enclosure under published rules, before it is bought."""

from __future__ import annotations

from typing import Annotated

import typer

from warmside.api import Answer, BadInput, Unit, counted, parse_quantity, shipped_species_named
from warmside.plugins.habitat.space.rules import Box, all_held
from warmside.plugins.habitat.space.shipped import rules_for
from warmside.plugins.habitat.telling.space import space_parts

MOST_ANIMALS = 20
LONGEST_MM = 20_000.0
"""No enclosure and no animal that these rules are for is longer."""


def size(
    context: typer.Context,
    width: Annotated[str, typer.Option(help="Inner width: 4ft or 120cm.")],
    depth: Annotated[str, typer.Option(help="Inner depth.")],
    height: Annotated[str, typer.Option(help="Inner height.")],
    species: Annotated[str, typer.Option(help="Scientific or common name.")],
    length: Annotated[str, typer.Option(help="Total length of the animal: 120cm.")],
    to_vent: Annotated[
        str | None, typer.Option(help="Length from snout to vent, which some rules ask.")
    ] = None,
    animals: Annotated[int, typer.Option(help="Animals that live in it.")] = 1,
) -> Answer:
    """Each rule with what it asks, what there is, and the margin."""
    if not 1 <= animals <= MOST_ANIMALS:
        raise BadInput(f"--animals is 1 to {MOST_ANIMALS}, not {animals}")
    given = Box(
        *(_length(t, n) for t, n in ((width, "width"), (depth, "depth"), (height, "height")))
    )
    total = _length(length, "length")
    vent = None if to_vent is None else _length(to_vent, "to-vent")
    if vent is not None and vent > total:
        raise BadInput("--to-vent is longer than --length; one of them is wrong")
    kept = shipped_species_named(species)
    rules = rules_for(kept.scientific, kept.group)
    found = all_held(rules, given, total, vent, animals)
    unknown = [r.name for r in rules if r.by_vent and vent is None]
    parts = space_parts(found, given, total, unknown)
    return Answer(f"{width} × {depth} × {height} for {counted(animals, kept.common)}", parts)


def _length(text: str, what: str) -> float:
    found = parse_quantity(text, Unit.LENGTH, what=f"--{what}")
    if found <= 0:
        raise BadInput(f"--{what} is above 0, not {text}")
    if found > LONGEST_MM:
        raise BadInput(f"--{what} of {text} is more than {LONGEST_MM / 1000:g} m; look at its unit")
    return found
