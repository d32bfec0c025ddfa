"""What cannot be in a description: things outside their enclosure, a cool side that is warmer."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Mapping, Sequence
from itertools import pairwise

from warmside.plugins.habitat.described.enclosure import Enclosure, Fitting, Heat, Place, Zone
from warmside.plugins.habitat.described.entry import Entry

ROUNDING_MM = 5.0


def check_enclosure(found: Enclosure, tables: Mapping[str, Sequence[Entry]], top: Entry) -> None:
    """Raise BadInput, with file and line, for what cannot be."""
    if not found.zones:
        top.wrong("zone", "describe at least one [[zone]], the warmest first")
    if 2 * found.wall_mm >= min(found.width, found.depth, found.height):
        top.wrong("wall_thickness", "the wall is thicker than the enclosure is wide")
    _check_zones(found, tables["zone"])
    _check_vents(found, tables["vent"])
    both: dict[str, tuple[Fitting | Heat, ...]] = {"fitting": found.fittings, "heat": found.heats}
    for name, things in both.items():
        for entry, thing in zip(tables[name], things, strict=True):
            for key, reaches, room in _outside(thing.place, found):
                entry.wrong(
                    key,
                    f"this {thing.kind} reaches to {reaches / 10:g} cm, "
                    f"the enclosure is {room / 10:g} cm there",
                )


def check_names(zones: Sequence[Zone], entries: Sequence[Entry]) -> None:
    """Raise BadInput for a second zone of one name, before things are placed by name."""
    names: set[str] = set()
    for entry, zone in zip(entries, zones, strict=True):
        if zone.name in names:
            entry.wrong("name", f"there are two zones named {zone.name!r}")
        names.add(zone.name)


def _check_zones(found: Enclosure, entries: Sequence[Entry]) -> None:
    for entry, zone in zip(entries, found.zones, strict=True):
        if zone.left < 0 or zone.left + zone.width > found.width + ROUNDING_MM:
            entry.wrong("width", f"the zone {zone.name!r} is wider than the enclosure")
    with_air = [(e, z) for e, z in zip(entries, found.zones, strict=True) if z.air]
    for (_, warm), (entry, cool) in pairwise(with_air):
        assert warm.air and cool.air
        if sum(cool.air) > sum(warm.air):
            entry.wrong(
                "air",
                f"{cool.name!r} is warmer than {warm.name!r} before it; zones go from warm to "
                "cool: put them in that order or mend the target",
            )


def _check_vents(found: Enclosure, entries: Sequence[Entry]) -> None:
    """No wall has more openings than it has room."""
    open_mm2: Counter[str] = Counter()
    for entry, vent in zip(entries, found.vents, strict=True):
        open_mm2[vent.wall] += round(vent.area)
        there = found.face_mm2(vent.wall)
        if open_mm2[vent.wall] >= there:
            entry.wrong(
                "area",
                f"vents of {open_mm2[vent.wall] / 100:g} cm² are no smaller than the {vent.wall} "
                f"itself ({there / 100:.0f} cm²); give the open area",
            )


def _outside(place: Place, found: Enclosure) -> Iterator[tuple[str, float, float]]:
    for key, start, size, room in (
        ("left", place.left, place.width, found.width),
        ("front", place.front, place.depth, found.depth),
        ("bottom", place.bottom, place.height, found.height),
    ):
        if start + size > room + ROUNDING_MM:
            yield key, start + size, room


def warmer_than_warm(found: Enclosure, warm: tuple[float, float]) -> str:
    """The coolest zone where it is described as warmer than a warm side should be; else nothing.

    Of zones that are both described it is known already; this is of a warm side that only the
    figures of who lives there speak of.
    """
    cool = found.zones[-1]
    if len(found.zones) < 2 or cool.air is None or found.zones[0].air is not None:
        return ""
    return cool.name if sum(cool.air) > sum(warm) else ""
