"""An enclosure as it is described: lengths in mm, temperatures in degrees C, humidity in %.

Places are told from the left wall, from the front and from the floor, as the keeper stands there.
"""

from __future__ import annotations

from datetime import date
from typing import NamedTuple

from msgspec import Struct

FITTINGS = (
    "hide",
    "humid hide",
    "raised hide",
    "ledge",
    "shelf",
    "branch",
    "cork",
    "plants",
    "water bowl",
    "rock",
    "substrate",
)
FACES = ("front", "back", "left", "right", "top")
HIDES = ("hide", "humid hide", "raised hide")
HEATS = ("panel", "lamp", "mat", "cable", "room")
WALLS = ("glass", "wood", "pvc", "foamed pvc", "plastic")
"""What walls may be of, as named in `data/walls.toml`, which has their figures."""


class Span(NamedTuple):
    """From low to high."""

    low: float
    high: float


class Place(NamedTuple):
    """Where a thing is and how large, in mm: from the left, the front and the floor."""

    left: float
    front: float
    bottom: float
    width: float
    depth: float
    height: float


class Zone(Struct, frozen=True):
    """A part from left to right with its targets; `rank` 0 is the warmest."""

    name: str
    rank: int
    left: float
    width: float
    air: Span | None = None
    humidity: Span | None = None


class Fitting(Struct, frozen=True):
    """A thing in a zone, and why it is there in the keeper's words."""

    kind: str
    name: str
    zone: str
    place: Place
    why: str = ""


class Heat(Struct, frozen=True):
    """A source of heat; a room that is heated has no watts and no place that counts."""

    kind: str
    zone: str
    watts: float | None
    place: Place
    guard: bool
    thermostat: bool
    reach: bool
    probe: str = ""
    why: str = ""


class Light(Struct, frozen=True):
    """A light with its hours a day; `leave` says whether the animal can get out of it whole."""

    kind: str
    hours: float
    leave: bool
    uv_index: float | None = None
    since: date | None = None
    why: str = ""


class Vent(Struct, frozen=True):
    """An opening for air: in which wall, and its open area in mm2."""

    wall: str
    area: float
    why: str = ""


class Enclosure(Struct, frozen=True):
    """One enclosure as of a day; zones from warm to cool."""

    width: float
    depth: float
    height: float
    wall: str
    wall_mm: float
    air_changes: Span
    zones: tuple[Zone, ...]
    fittings: tuple[Fitting, ...] = ()
    heats: tuple[Heat, ...] = ()
    lights: tuple[Light, ...] = ()
    vents: tuple[Vent, ...] = ()
    light_sensitive: bool = False
    why: str = ""

    @property
    def floor_m2(self) -> float:
        """The floor in m2."""
        return self.width * self.depth / 1e6

    @property
    def volume_m3(self) -> float:
        """The room inside in m3."""
        return self.floor_m2 * self.height / 1000

    def face_mm2(self, face: str) -> float:
        """The area of a wall, one of `FACES`, in mm2."""
        if face == "top":
            return self.width * self.depth
        return (self.width if face in ("front", "back") else self.depth) * self.height
