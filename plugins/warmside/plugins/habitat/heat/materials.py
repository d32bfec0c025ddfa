"""What the walls of enclosures are made of, as figures: conductivity and heat held."""

from __future__ import annotations

from functools import cache

from msgspec import Struct

from warmside.api import Source, sourced_rows
from warmside.plugins.habitat.described.enclosure import Span


class Material(Struct, frozen=True):
    """Conductivity in W/mK from least to most, heat held in J/m3K, and where the first is from."""

    name: str
    conductivity: Span
    capacity: float
    source: Source


@cache
def materials() -> dict[str, Material]:
    """Every material that ships, by its name."""
    rows = sourced_rows("warmside.plugins.habitat", "walls", "wall")
    return {
        row["name"]: Material(
            row["name"],
            Span(*row["conductivity_w_per_mk"]),
            row["capacity_j_per_m3k"],
            row.source,
        )
        for row in rows
    }
