"""The air of an enclosure as it was last read: each zone's temperature, and the vapour of all."""

from __future__ import annotations

from collections.abc import Mapping
from datetime import date
from typing import NamedTuple

from warmside.api import Ask
from warmside.plugins.habitat.described.enclosure import Enclosure
from warmside.plugins.habitat.gradient.seen import ZoneSeen
from warmside.plugins.habitat.gradient.targets import target
from warmside.plugins.habitat.logs.probes import Measure
from warmside.plugins.habitat.reading.seen_here import seen_here
from warmside.plugins.habitat.reading.wanted import wanted


class Damp(NamedTuple):
    """Degrees C and relative humidity in % of one place, and where and when they were read."""

    celsius: float
    percent: float
    zone: str = ""
    day: date | None = None

    @property
    def words(self) -> str:
        """`55 % at 26 °C, as read at hide on 2026-03-01`."""
        read = f"as read at {self.zone} on {self.day}" if self.day else "as typed"
        return f"{self.percent:g} % at {self.celsius:g} °C, {read}"


class AirHere(NamedTuple):
    """Degrees C by zone, which of them were read (others are as they should be), and the damp."""

    zones_c: Mapping[str, float]
    read: frozenset[str]
    damp: Damp | None


def air_here(ask: Ask, enclosure_id: int, found: Enclosure, on: date) -> AirHere:
    """The newest readings of two weeks; a zone that was not read counts as its target by day."""
    seen, spans = seen_here(ask, enclosure_id, on), wanted(ask, enclosure_id, on)
    zones, read = {}, set()
    for zone in found.zones:
        one = seen.get(zone.name.casefold())
        air = one.of(Measure.AIR) if one else None
        goal = target(zone.name, Measure.AIR, spans)
        if air is not None:
            zones[zone.name] = air.value
            read.add(zone.name)
        elif goal and goal.day:
            zones[zone.name] = sum(goal.day) / 2
    return AirHere(zones, frozenset(read), _damp(seen))


def _damp(seen: Mapping[str, ZoneSeen]) -> Damp | None:
    """The newest of the zones in which air and humidity were both read."""
    both = [
        Damp(air.value, humidity.value, one.zone, humidity.day)
        for one in seen.values()
        if (air := one.of(Measure.AIR)) and (humidity := one.of(Measure.HUMIDITY))
    ]
    return max(both, key=lambda damp: (damp.day or date.min, damp.percent), default=None)
