"""What the warmth of a source covers: a share of the floor, and a snake that lies coiled in it."""

from __future__ import annotations

import math

from msgspec import Struct

from warmside.plugins.habitat.described.enclosure import Enclosure, Heat, Span


class Coil(Struct, frozen=True):
    """A snake that lies coiled: its code, and the diameter of its disc in mm from least to most."""

    animal: str
    disc_mm: Span


def floor_share(found: Enclosure, heat: Heat) -> float:
    """The share of the floor that a heat source covers, 0 to 1."""
    return heat.place.width * heat.place.depth / (found.width * found.depth)


def coil_disc_mm(length_mm: float, girth_mm: float) -> float:
    """The diameter of a snake that lies coiled flat: a disc as large as its length times width.

    No gaps between the coils; a loose coil is larger.
    """
    return math.sqrt(4 * length_mm * (girth_mm / math.pi) / math.pi)


def coil_of(animal: str, length_mm: tuple[float, float], girth_mm: tuple[float, float]) -> Coil:
    """The coil of a snake whose length and girth are known from least to most."""
    low, high = (coil_disc_mm(*both) for both in zip(length_mm, girth_mm, strict=True))
    return Coil(animal, Span(low, high))


def fits(heat: Heat, coil: Coil) -> bool | None:
    """Whether the whole coil fits below or on a heat source; None where it may just do."""
    side = min(heat.place.width, heat.place.depth)
    if coil.disc_mm.high <= side:
        return True
    return False if coil.disc_mm.low > side else None
