"""Heat of a described enclosure as ranges: by its walls and the air that goes through it."""

from __future__ import annotations

from collections.abc import Mapping
from typing import NamedTuple

from warmside.plugins.habitat.described.enclosure import Enclosure, Span
from warmside.plugins.habitat.heat.losses import Wall, conductance_w_per_k
from warmside.plugins.habitat.heat.materials import materials
from warmside.plugins.habitat.heat.powercut import WOOD_J_PER_KGK, Hours, warm_for
from warmside.plugins.habitat.heat.walls import FILM, Layer, u_value

WALL_UNSURE = 0.25
"""How far the loss by the walls may be off: joints, doors, fittings (an assumption)."""
SUBSTRATE_KG_PER_M3 = 300.0
"""A loose, fairly dry substrate (an assumption)."""
BOWL_FULL = 0.5
"""The share of a bowl's outer box that is water (an assumption)."""


class Reach(NamedTuple):
    """What heat sources can do beside what is needed: watts, and where it ends without control."""

    needed_w: Span
    given_w: float
    warmest_c: Span


def conductance(found: Enclosure) -> Span:
    """Watts lost for each degree above the room: by walls and air, least and most."""
    return conductance_of(found, _faces(found), found.volume_m3)


def conductance_of(found: Enclosure, faces: Mapping[str, float], volume_m3: float) -> Span:
    """As `conductance`, of a part: its outer faces (side, top, floor) in m2, and its air."""
    through = [(area, u_values(found, face)) for face, area in faces.items()]
    low, high = (
        conductance_w_per_k(
            [Wall(area * share, u[end]) for area, u in through], changes * volume_m3
        )
        for end, (share, changes) in enumerate(
            zip((1 - WALL_UNSURE, 1 + WALL_UNSURE), found.air_changes, strict=True)
        )
    )
    return Span(low, high)


def u_values(found: Enclosure, face: str) -> Span:
    """What a wall lets through in W/m2K, least and most its material does; a face of `FILM`."""
    film = FILM[face]
    conductivities = materials()[found.wall].conductivity
    return Span(*(u_value([Layer(found.wall_mm, c)], film, film) for c in conductivities))


def held(found: Enclosure, inside_c: float, room_c: float) -> Span:
    """Watts that hold the whole enclosure at a temperature; 0 where the room is as warm."""
    over = max(0.0, inside_c - room_c)
    return Span(*(c * over for c in conductance(found)))


def reach(found: Enclosure, inside_c: float, room_c: float) -> Reach:
    """What all heat sources can do together; those without watts count nothing."""
    given = sum(h.watts or 0.0 for h in found.heats)
    low, high = conductance(found)
    end = Span(room_c + given / high, room_c + given / low)
    return Reach(held(found, inside_c, room_c), given, end)


def warm_after_cut(found: Enclosure, start_c: float, room_c: float, limit_c: float) -> Hours | None:
    """Hours above a limit without heat; None where the room itself is warm enough."""
    dry = _dry_kg(found)
    both = [
        warm_for(start_c, room_c, limit_c, c, found.volume_m3, dry, _water_kg(found))
        for c in conductance(found)
    ]
    known = [hours for hours in both if hours is not None]
    if len(known) < len(both):
        return None
    return Hours(min(h.least for h in known), max(h.most for h in known))


def _faces(found: Enclosure) -> dict[str, float]:
    around = 2 * (found.width + found.depth) * found.height / 1e6
    return {"side": around, "top": found.floor_m2, "floor": found.floor_m2}


def _dry_kg(found: Enclosure) -> float:
    """Walls and substrate as the mass of wood that holds as much heat, in kg."""
    walls = sum(_faces(found).values()) * found.wall_mm / 1000 * materials()[found.wall].capacity
    beds = [f.place for f in found.fittings if f.kind == "substrate"]
    soil = sum(p.width * p.depth * p.height / 1e9 for p in beds) * SUBSTRATE_KG_PER_M3
    return walls / WOOD_J_PER_KGK + soil


def _water_kg(found: Enclosure) -> float:
    bowls = [f.place for f in found.fittings if f.kind == "water bowl"]
    return sum(p.width * p.depth * p.height / 1e6 for p in bowls) * BOWL_FULL
