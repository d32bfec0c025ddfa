"""Steady loss of heat through the walls of an enclosure and by its ventilation."""

from __future__ import annotations

from collections.abc import Sequence
from typing import NamedTuple

AIR_WH_PER_M3K = 0.34
"""Heat that 1 m3 of air carries per degree (density 1.2 kg/m3, 1.005 kJ/kgK)."""


class Wall(NamedTuple):
    """An outer face: its area in m2 and what it lets through in W/m2K."""

    area_m2: float
    u_w_per_m2k: float


def conductance_w_per_k(walls: Sequence[Wall], ventilation_m3_per_h: float) -> float:
    """Watts lost for each degree that the inside is warmer than the room."""
    through = sum(w.area_m2 * w.u_w_per_m2k for w in walls)
    return through + AIR_WH_PER_M3K * ventilation_m3_per_h


def warmest_c(conductance: float, watts: float, room_c: float) -> float:
    """Where an enclosure ends up when its heat stays on without a thermostat, in degrees C."""
    return room_c + watts / conductance
