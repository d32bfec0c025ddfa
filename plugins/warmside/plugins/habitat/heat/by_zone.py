"""Heat of a described enclosure zone by zone: what each loses through its own walls and air.

In a steady state all that the sources give leaves through the walls and with the air of the zones,
each at its own temperature; so the sum holds however warmth goes from one zone to the next.
"""

from __future__ import annotations

from collections.abc import Mapping
from itertools import pairwise

from warmside.plugins.habitat.described.enclosure import Enclosure, Span, Zone
from warmside.plugins.habitat.heat.described import conductance_of

TOUCHES_MM = 10.0
"""A zone that ends so near to a side wall has that wall."""
FILLS = 0.02
"""Zones fill the width when they are off by no more than this share of it."""


def zones_fill(found: Enclosure) -> bool:
    """Whether its zones lie side by side over the whole width, with no gap and none twice."""
    ends = sorted((z.left, z.left + z.width) for z in found.zones)
    near = FILLS * found.width
    meets = all(abs(a[1] - b[0]) <= near for a, b in pairwise(ends))
    return meets and ends[0][0] <= near and abs(ends[-1][1] - found.width) <= near


def zone_conductance(found: Enclosure, zone: Zone) -> Span:
    """Watts that a zone loses for each degree above the room, least and most.

    Front, back, top and floor are as wide as the zone; a side wall is its own where it touches it.
    """
    sides = sum((zone.left <= TOUCHES_MM, zone.left + zone.width >= found.width - TOUCHES_MM))
    around = (2 * zone.width + sides * found.depth) * found.height / 1e6
    floor = zone.width * found.depth / 1e6
    faces = {"side": around, "top": floor, "floor": floor}
    return conductance_of(found, faces, floor * found.height / 1000)


def watts_by_zone(found: Enclosure, held_c: Mapping[str, float], room_c: float) -> dict[str, Span]:
    """Watts that each zone loses at the temperature that it is held at; 0 where the room is as
    warm."""
    watts = {}
    for zone in found.zones:
        if zone.name in held_c:
            over = max(0.0, held_c[zone.name] - room_c)
            watts[zone.name] = Span(*(c * over for c in zone_conductance(found, zone)))
    return watts


def watts_together(found: Enclosure, by_zone: Mapping[str, Span]) -> Span | None:
    """Watts of all zones, each at its own temperature; None where one of them is not known."""
    if len(by_zone) < len(found.zones) or not zones_fill(found):
        return None
    return Span(sum(w.low for w in by_zone.values()), sum(w.high for w in by_zone.values()))
