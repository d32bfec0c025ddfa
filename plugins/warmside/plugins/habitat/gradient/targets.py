"""Which span a zone should keep: as it is described, else by its name.

What is described of a zone comes first. Of others one whose name begins with `warm`, `hot` or
`bask` is the warm side, one that begins with `cool` or `cold` the cool side; what lies between
keeps between the cool side's least and the warm side's most. At night every zone may fall to the
night's least.
"""

from __future__ import annotations

from collections.abc import Mapping

from msgspec import Struct

from warmside.plugins.habitat.gradient.zones import Target
from warmside.plugins.habitat.logs.probes import Measure

Span = tuple[float, float]
WARM, COOL = ("warm", "hot", "bask"), ("cool", "cold")


class ZoneWanted(Struct, frozen=True):
    """A described zone: its side, what it should keep, and who says so, in words."""

    name: str
    side: str
    air: Span | None = None
    humidity: Span | None = None
    by: str = ""


class Wanted(Struct, frozen=True):
    """The spans of an enclosure in degrees C, % and UV index, `night` the least of a night.

    None is what is not known; `by` says of `warm`, `cool`, `humidity` and `uv` who says so. Where
    it `basks`, `warm` is the surface on which it does, and says nothing of the air above it.
    """

    warm: Span | None = None
    cool: Span | None = None
    night: float | None = None
    humidity: Span | None = None
    uv: Span | None = None
    zones: tuple[ZoneWanted, ...] = ()
    by: Mapping[str, str] = {}
    basks: bool = False

    def zone(self, name: str) -> ZoneWanted | None:
        """The described zone of that name."""
        wanted = name.casefold().strip()
        return next((z for z in self.zones if z.name.casefold() == wanted), None)

    def side(self, zone: str) -> str:
        """`warm`, `cool` or `between`: as described, else by its name."""
        found = self.zone(zone)
        return found.side if found else side(zone)


def side(zone: str) -> str:
    """`warm`, `cool` or, of any other zone, `between`."""
    word = zone.casefold().strip()
    if word.startswith(WARM):
        return "warm"
    return "cool" if word.startswith(COOL) else "between"


def target(zone: str, measure: Measure, wanted: Wanted) -> Target | None:
    """The target of a zone with who says so; None where nothing is known of it."""
    own = wanted.zone(zone)
    if measure is Measure.UV:
        return Target(wanted.uv, None, wanted.by.get("uv", "")) if wanted.uv else None
    if measure is Measure.HUMIDITY:
        described = own is not None and own.humidity is not None
        span = own.humidity if own and own.humidity else wanted.humidity
        by = own.by if own and described else wanted.by.get("humidity", "")
        return Target(span, span, by) if span else None
    if own and own.air:
        return Target(own.air, _by_night(own.air, wanted), own.by)
    where = wanted.side(zone)
    if wanted.basks and measure is Measure.AIR and where != "cool":
        return None
    day = _by_day(where, wanted)
    by = wanted.by.get("cool" if where == "cool" else "warm", "")
    return Target(day, _by_night(day, wanted), by) if day else None


def _by_day(where: str, wanted: Wanted) -> Span | None:
    if where == "warm":
        return wanted.warm
    if where == "cool":
        return wanted.cool
    if wanted.warm and wanted.cool:
        return wanted.cool[0], wanted.warm[1]
    return None


def _by_night(day: Span, wanted: Wanted) -> Span:
    """A night is never asked to be warmer than the day."""
    return day if wanted.night is None else (min(day[0], wanted.night), day[1])
