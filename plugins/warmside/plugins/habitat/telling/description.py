"""The set-up of an enclosure in words: zones, fittings with their reasons, heat and light."""

from __future__ import annotations

from collections.abc import Iterator

from warmside.api import Cell, Column, Kind, Part, Table, Tone, Unit, paragraphs
from warmside.plugins.habitat.described.choice import hides_by_zone
from warmside.plugins.habitat.described.enclosure import Enclosure, Heat, Zone
from warmside.plugins.habitat.telling.plan import numbered, plan

SAFE = (
    "A thermostat on every heat source, a guard where the animal can reach it, a residual-current "
    "switch (RCD, GFCI) before it, and mains away from water; wiring is for a licensed electrician."
)
MEASURED = "Targets are not readings: a thermometer and a hygrometer in each zone tell what is."
UNSAID = "no reason given"
ZONES = (
    Column("zone", "zone"),
    Column("air_low", "air from", Unit.TEMPERATURE),
    Column("air_high", "to", Unit.TEMPERATURE),
    Column("humidity_low", "humidity from", Unit.PERCENT),
    Column("humidity_high", "to", Unit.PERCENT),
    Column("hides", "hiding places", Unit.COUNT),
)
THINGS = (
    Column("mark", "no."),
    Column("what", "what"),
    Column("zone", "where"),
    Column("why", "why", below=True),
)
LIGHTS = (
    Column("light", "light"),
    Column("hours", "hours a day", Unit.HOURS),
    Column("leave", "can leave it", Kind.YESNO),
    Column("uv_index", "UV index", Unit.UV_INDEX),
    Column("since", "lamp since", Kind.DATE),
    Column("why", "why", below=True),
)


def sheet_parts(found: Enclosure, title: str) -> tuple[Part, ...]:
    """Plan, zones, fittings with reasons, heat and light, and the cautions."""
    why = paragraphs(found.why) if found.why else ()
    cautions = paragraphs(SAFE, MEASURED, tone=Tone.CAUTION)
    return (*why, plan(found, title), *cautions, *_tables(found))


def _tables(found: Enclosure) -> Iterator[Part]:
    hides = hides_by_zone(found)
    yield Table("zones", ZONES, tuple(_zone(z, hides[z.name]) for z in found.zones), "Targets")
    rows = tuple((m, _what(t), t.zone, t.why or UNSAID) for m, t in numbered(found))
    yield Table("things", THINGS, rows, "What is in it, and why", empty="nothing described")
    if found.lights:
        lights = tuple(
            (x.kind, x.hours, x.leave, x.uv_index, x.since, x.why or UNSAID) for x in found.lights
        )
        yield Table("lights", LIGHTS, lights, "Light")


def _zone(zone: Zone, hides: int) -> tuple[Cell, ...]:
    return (zone.name, *(zone.air or (None, None)), *(zone.humidity or (None, None)), hides)


def _what(thing: object) -> str:
    if not isinstance(thing, Heat):
        return str(getattr(thing, "name", ""))
    watts = "" if thing.watts is None else f", {thing.watts:g} W"
    control = "with thermostat" if thing.thermostat else "NO THERMOSTAT"
    guard = "" if not thing.reach else (", guarded" if thing.guard else ", NO GUARD")
    return f"{thing.kind}{watts}, {control}{guard}"
