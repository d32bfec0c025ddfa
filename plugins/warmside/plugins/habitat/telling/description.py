"""The set-up of an enclosure as a sheet: plan, zones, things with their reasons, light."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from warmside.api import (
    Cell,
    Column,
    Display,
    Kind,
    Part,
    Table,
    Tone,
    Unit,
    counted,
    format_quantity,
    paragraphs,
)
from warmside.plugins.habitat.described.choice import hides_by_kind
from warmside.plugins.habitat.described.enclosure import Enclosure, Heat, Light, Vent
from warmside.plugins.habitat.gradient.seen import ZoneSeen
from warmside.plugins.habitat.gradient.targets import Wanted
from warmside.plugins.habitat.light.day_length import clock
from warmside.plugins.habitat.logs.probes import Measure
from warmside.plugins.habitat.telling.plan import numbered, plan
from warmside.plugins.habitat.telling.zone_table import shown, span_words, zone_table

SAFE = (
    "A thermostat on every heat source, a guard where the animal can reach it, a residual-current "
    "switch (RCD, GFCI) before it, and mains away from water; wiring is for a licensed electrician."
)
MEASURED = "Targets are not readings: a thermometer and a hygrometer in each zone tell what is."
UNSAID = "no reason given"
THINGS = (
    Column("mark", "no."),
    Column("what", "what"),
    Column("zone", "where"),
    Column("why", "why", below=True),
)
LIGHTS = (
    Column("mark", "no."),
    Column("light", "light"),
    Column("hours", "hours a day", Unit.HOURS),
    Column("on", "on"),
    Column("off", "off"),
    Column("leave", "can leave it", Kind.YESNO),
    Column("uv_index", "UV index", Unit.UV_INDEX),
    Column("since", "lamp since", Kind.DATE),
    Column("why", "why", below=True),
)


def sheet_parts(
    found: Enclosure,
    title: str,
    wanted: Wanted,
    seen: Mapping[str, ZoneSeen],
    lights_on: float,
    display: Display,
) -> tuple[Part, ...]:
    """Plan with the newest readings, the cautions, zones, things with reasons, heat and light.

    `lights_on` is the hour of the clock at which the lights go on.
    """
    why = paragraphs(found.why) if found.why else ()
    cautions = paragraphs(f"{SAFE} {MEASURED}", tone=Tone.CAUTION)
    read = {name: read_words(one, display) for name, one in seen.items()}
    table = zone_table(found, wanted, seen, display)
    zones = (table, *paragraphs(_hides(found)), *_by_night(wanted, display))
    return (*why, plan(found, title, read), *cautions, *zones, *_tables(found, lights_on))


def _hides(found: Enclosure) -> str:
    """How many hiding places there are, and of which kinds."""
    many = hides_by_kind(found)
    if not many["all"]:
        return "No hiding place is described."
    return (
        f"{counted(many['all'], 'hiding place')}: {many['warm']} in the warmest zone, "
        f"{many['cool']} in the coolest; {many['humid']} humid, {many['raised']} raised."
    )


def _by_night(wanted: Wanted, display: Display) -> Iterator[Part]:
    """What a night may bring, and on what one basks, where that is known."""
    told = []
    if wanted.basks and wanted.warm:
        told.append(
            f"It basks on a surface of {span_words(*wanted.warm, Unit.TEMPERATURE, display)}."
        )
    if wanted.night is not None:
        least = format_quantity(wanted.night, Unit.TEMPERATURE, display)
        told.append(f"By night the heat may be lower, down to {least} in every zone.")
    if told:
        yield from paragraphs(" ".join(told))


def read_words(one: ZoneSeen, display: Display) -> str:
    """The newest air and humidity of a zone: `29.4 °C, 55 %`; else its surface."""
    told = [one.of(measure) for measure in (Measure.AIR, Measure.HUMIDITY)]
    shown = [r for r in told if r] or list(one.by_measure.values())
    return ", ".join(format_quantity(r.value, r.measure.unit, display) for r in shown[:2])


def _tables(found: Enclosure, lights_on: float) -> Iterator[Part]:
    rows = tuple((m, _what(t), t.zone, t.why or UNSAID) for m, t in numbered(found))
    rows += tuple((f"V{n}", _opening(v), "", v.why or UNSAID) for n, v in enumerate(found.vents, 1))
    yield Table("things", THINGS, rows, "What is in it, and why", empty="nothing described")
    if found.lights:
        lights = tuple(
            (f"L{n}", x.kind, x.hours, *_timer(x, lights_on), *_of_light(x))
            for n, x in enumerate(found.lights, 1)
        )
        yield Table("lights", shown(LIGHTS, lights), lights, "Light")


def _timer(light: Light, on: float) -> tuple[str | None, str | None]:
    """When it goes on and off by the clock; nothing of one that never does."""
    if not 0 < light.hours < 24:
        return None, None
    on_minute, hours = round(60 * on), round(60 * light.hours)
    return clock(on_minute), clock((on_minute + hours) % (24 * 60))


def _of_light(light: Light) -> tuple[Cell, ...]:
    return light.leave, light.uv_index, light.since, light.why or UNSAID


def _opening(vent: Vent) -> str:
    return f"vent in the {vent.wall}, {vent.area / 100:g} cm²"


def _what(thing: object) -> str:
    if not isinstance(thing, Heat):
        return str(getattr(thing, "name", ""))
    watts = "" if thing.watts is None else f", {thing.watts:g} W"
    control = "with thermostat" if thing.thermostat else "NO THERMOSTAT"
    guard = "" if not thing.reach else (", guarded" if thing.guard else ", NO GUARD")
    return f"{thing.kind}{watts}, {control}{guard}"
