"""Where a wall sweats: its inner face against the dew point of the air before it.

In a steady state the inner face is colder than the air by the share that the inner film has in the
whole resistance (ISO 6946; the same as the temperature factor of ISO 13788). Corners, shelves and
what stands close to a pane are colder still, a pane in a draught too.
"""

from __future__ import annotations

from collections.abc import Mapping

from msgspec import Struct

from warmside.plugins.habitat.air.moist import dew_point_c, humidity_at, saturation_pa
from warmside.plugins.habitat.heat.walls import FILM, Layer, u_value


class Sweat(Struct, frozen=True):
    """A wall's inner face in degrees C, the air's dew point, and the humidity of that air in %
    from which on the wall sweats."""

    face_c: float
    dew_c: float
    from_percent: float

    @property
    def wet(self) -> bool:
        """Whether water settles on it."""
        return self.face_c < self.dew_c


class ZoneSweat(Struct, frozen=True):
    """A zone with its air in degrees C, the humidity of the same vapour there, and its wall."""

    zone: str
    air_c: float
    percent: float
    wall: Sweat


def sweat(wall: Layer, inside_c: float, percent: float, room_c: float) -> Sweat:
    """An upright wall of one layer between the air inside and that of the room.

    Humidity above 0 %. Raises BadInput for air or a wall that cannot be.
    """
    film = FILM["side"]
    face = inside_c - u_value([wall], film, film) * film * (inside_c - room_c)
    from_percent = min(100.0, 100 * saturation_pa(face) / saturation_pa(inside_c))
    return Sweat(face, dew_point_c(inside_c, percent), from_percent)


def zone_by_zone(
    wall: Layer, zones_c: Mapping[str, float], damp: tuple[float, float], room_c: float
) -> list[ZoneSweat]:
    """The wall at each zone; `damp` is degrees C and % that were read together at one of them.

    The vapour is the same at all; where a zone is colder than its dew point, the air itself is
    full there.
    """
    found = []
    for zone, celsius in zones_c.items():
        percent = humidity_at(*damp, celsius)
        found.append(ZoneSweat(zone, celsius, percent, sweat(wall, celsius, percent, room_c)))
    return found
