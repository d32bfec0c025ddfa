"""Which span a zone should keep: by its name, from the species' row or the keeper's own value.

A zone whose name begins with `warm`, `hot` or `bask` is the warm side, one that begins with `cool`
or `cold` the cool side; what lies between keeps between the cool side's least and the warm side's
most. At night every zone may fall to the night's least.
"""

from __future__ import annotations

from msgspec import Struct

from warmside.plugins.habitat.gradient.zones import Target
from warmside.plugins.habitat.logs.probes import Measure

Span = tuple[float, float]
WARM, COOL = ("warm", "hot", "bask"), ("cool", "cold")


class Wanted(Struct, frozen=True):
    """The spans of an enclosure in degrees C, % and UV index, `night` the least of a night.

    None is what is not known.
    """

    warm: Span | None = None
    cool: Span | None = None
    night: float | None = None
    humidity: Span | None = None
    uv: Span | None = None


def side(zone: str) -> str:
    """`warm`, `cool` or, of any other zone, `between`."""
    word = zone.casefold().strip()
    if word.startswith(WARM):
        return "warm"
    return "cool" if word.startswith(COOL) else "between"


def target(zone: str, measure: Measure, wanted: Wanted) -> Target | None:
    """The target of a zone; None where nothing is known of it."""
    if measure is Measure.HUMIDITY:
        return Target(wanted.humidity, wanted.humidity) if wanted.humidity else None
    if measure is Measure.UV:
        return Target(wanted.uv, None) if wanted.uv else None
    day = _by_day(side(zone), wanted)
    return Target(day, _by_night(day, wanted)) if day else None


def own_target(
    measure: Measure, air: Span | None, humidity: Span | None, wanted: Wanted
) -> Target | None:
    """The target that the keeper described for a zone, before that of its name; None without."""
    if measure is Measure.HUMIDITY and humidity:
        return Target(humidity, humidity)
    return Target(air, _by_night(air, wanted)) if measure is Measure.AIR and air else None


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
