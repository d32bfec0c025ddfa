"""How much heat a wall lets through: ISO 6946, homogeneous layers in series.

An enclosure in a room has indoor air on both faces, so the inner film of Table 7 counts twice
(0.13 m2K/W sideways, 0.10 upwards, 0.17 downwards).
"""

from __future__ import annotations

from collections.abc import Sequence
from typing import NamedTuple

from warmside.api import BadInput

FILM = {"side": 0.13, "top": 0.10, "floor": 0.17}
"""Resistance of the air film in m2K/W (ISO 6946:2017, Table 7, as quoted)."""


class Layer(NamedTuple):
    """A layer of a wall: thickness in mm, conductivity in W/mK."""

    thickness_mm: float
    conductivity_w_per_mk: float

    @property
    def resistance(self) -> float:
        """In m2K/W."""
        return self.thickness_mm / 1000 / self.conductivity_w_per_mk


def u_value(layers: Sequence[Layer], inside_film: float, outside_film: float) -> float:
    """Heat that goes through, in W/m2K; films in m2K/W. Raises BadInput for a wall of nothing."""
    for n, layer in enumerate(layers, 1):
        if layer.thickness_mm <= 0 or layer.conductivity_w_per_mk <= 0:
            raise BadInput(f"layer {n}: thickness and conductivity are above 0")
    if inside_film < 0 or outside_film < 0:
        raise BadInput("the resistance of an air film is not below 0")
    total = inside_film + outside_film + sum(layer.resistance for layer in layers)
    if total <= 0:
        raise BadInput("a wall needs a layer or an air film")
    return 1 / total
