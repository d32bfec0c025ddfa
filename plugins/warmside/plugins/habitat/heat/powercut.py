"""How long an enclosure stays warm without heat: a lumped capacity (Newton's law of cooling).

The air follows within minutes; what keeps warm is walls, substrate, water and furniture, of which
only a part takes part at first. So the time is a range: with the air and a third of the rest, and
with all of it.
"""

from __future__ import annotations

import math
from typing import NamedTuple

AIR_J_PER_M3K = 1206.0
WATER_J_PER_KGK = 4182.0
WOOD_J_PER_KGK = 1600.0
"""Specific heats (handbook values; wood and board, ISO 10456 table 3, from memory)."""
TAKES_PART = 1 / 3
"""The share of the mass that cools along in the shorter estimate (an assumption)."""


class Hours(NamedTuple):
    """From least to most."""

    least: float
    most: float


def capacity_j_per_k(volume_m3: float, dry_kg: float, water_kg: float) -> float:
    """Heat that the enclosure gives up for each degree: air, walls and substrate, water."""
    dry = dry_kg * WOOD_J_PER_KGK
    return volume_m3 * AIR_J_PER_M3K + dry + water_kg * WATER_J_PER_KGK


def time_constant_h(capacity_j_per_k: float, conductance_w_per_k: float) -> float:
    """Hours in which the difference to the room falls to 37 %."""
    return capacity_j_per_k / conductance_w_per_k / 3600


def hours_until(start_c: float, room_c: float, limit_c: float, constant_h: float) -> float | None:
    """Hours until it has cooled down to a limit; 0 where it is below, None where it never is."""
    if start_c <= limit_c:
        return 0.0
    if room_c >= limit_c:
        return None
    return constant_h * math.log((start_c - room_c) / (limit_c - room_c))


def warm_for(
    start_c: float,
    room_c: float,
    limit_c: float,
    conductance: float,
    volume_m3: float,
    dry_kg: float,
    water_kg: float,
) -> Hours | None:
    """How long it stays above a limit, as a range; None where the room is warm enough."""
    found = []
    for share in (TAKES_PART, 1.0):
        capacity = capacity_j_per_k(volume_m3, share * dry_kg, share * water_kg)
        constant = time_constant_h(capacity, conductance)
        hours = hours_until(start_c, room_c, limit_c, constant)
        if hours is None:
            return None
        found.append(hours)
    return Hours(*found)
