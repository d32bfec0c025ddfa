"""What choice a described enclosure leaves its animal, and what is missing; plain values only."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import NamedTuple

from warmside.plugins.habitat.described.enclosure import HIDES, Enclosure, Zone


class Gap(NamedTuple):
    """Something that a keeper would add: the word of its code, and a sentence."""

    code: str
    words: str
    danger: bool = False


def hides_by_zone(found: Enclosure) -> dict[str, int]:
    """How many hiding places each zone has, from warm to cool; a zone without any has 0."""
    return {z.name: len(_hides(found, z)) for z in found.zones}


def hides_by_kind(found: Enclosure) -> dict[str, int]:
    """How many hiding places there are in all, where it is warmest and coolest, humid, raised."""
    kinds = [f.kind for f in found.fittings]
    warmest, coolest = (len(_hides(found, zone)) for zone in (found.zones[0], found.zones[-1]))
    return {
        "all": sum(kind in HIDES for kind in kinds),
        "warm": warmest,
        "cool": coolest if len(found.zones) > 1 else 0,
        "humid": kinds.count("humid hide"),
        "raised": kinds.count("raised hide"),
    }


def gaps(found: Enclosure) -> Iterator[Gap]:
    """What is missing on any day."""
    yield from _sides(found)
    if not any(f.kind == "water bowl" for f in found.fittings):
        yield Gap("water", "no water bowl is described; does it drink elsewhere?")
    for heat in found.heats:
        what = f"the {heat.kind} in {heat.zone}"
        if heat.kind != "room" and not heat.thermostat:
            yield Gap("thermostat", f"{what} has no thermostat: it can burn and start a fire", True)
        if heat.reach and not heat.guard:
            yield Gap("guard", f"the animal can reach {what}, which has no guard: burns", True)
    if found.light_sensitive and not all(light.leave for light in found.lights):
        yield Gap("light", "it bears light badly and cannot leave the light; give it a dark place")


def no_humid_hide(found: Enclosure) -> bool:
    """Whether there is no humid hide, which matters near a shed."""
    return not any(f.kind == "humid hide" for f in found.fittings)


def _sides(found: Enclosure) -> Iterator[Gap]:
    for zone in _ends(found.zones):
        if not _hides(found, zone):
            yield Gap("hide", f"there is no hide in {zone.name}: it must choose warmth or cover")


def _ends(zones: Sequence[Zone]) -> Sequence[Zone]:
    """The warmest and the coolest zone; one alone is both."""
    return zones if len(zones) == 1 else (zones[0], zones[-1])


def _hides(found: Enclosure, zone: Zone) -> list[str]:
    return [f.name for f in found.fittings if f.zone == zone.name and f.kind in HIDES]
