"""The set-up of an enclosure in words: zones, fittings with their reasons, heat and light."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence

from msgspec.structs import replace

from warmside.api import (
    Cell,
    Column,
    Display,
    Kind,
    Part,
    Table,
    Tone,
    Unit,
    format_quantity,
    paragraphs,
)
from warmside.plugins.habitat.described.choice import hides_by_zone
from warmside.plugins.habitat.described.enclosure import Enclosure, Heat, Vent, Zone
from warmside.plugins.habitat.gradient.seen import ZoneSeen, elsewhere
from warmside.plugins.habitat.gradient.targets import Wanted, target
from warmside.plugins.habitat.logs.probes import Measure
from warmside.plugins.habitat.telling.plan import numbered, plan

SAFE = (
    "A thermostat on every heat source, a guard where the animal can reach it, a residual-current "
    "switch (RCD, GFCI) before it, and mains away from water; wiring is for a licensed electrician."
)
MEASURED = "Targets are not readings: a thermometer and a hygrometer in each zone tell what is."
UNSAID = "no reason given"
READ = (Measure.AIR, Measure.HUMIDITY, Measure.SURFACE, Measure.UV)
ZONES = (
    Column("zone", "zone"),
    Column("target", "should be by day"),
    Column("measured", "was, in two weeks"),
    Column("read", "last read", Kind.DATE),
    Column("hides", "hides", Unit.COUNT),
    Column("air_low", "air from", Unit.TEMPERATURE, text=False),
    Column("air_high", "to", Unit.TEMPERATURE, text=False),
    Column("humidity_low", "humidity from", Unit.PERCENT, text=False),
    Column("humidity_high", "to", Unit.PERCENT, text=False),
    Column("measured_low", "measured from", Unit.TEMPERATURE, text=False),
    Column("measured_high", "to", Unit.TEMPERATURE, text=False),
    Column("measured_humidity_low", "measured from", Unit.PERCENT, text=False),
    Column("measured_humidity_high", "to", Unit.PERCENT, text=False),
    Column("surface", "surface", Unit.TEMPERATURE, text=False),
    Column("measured_uv", "UV index", Unit.UV_INDEX, text=False),
)
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
    Column("leave", "can leave it", Kind.YESNO),
    Column("uv_index", "UV index", Unit.UV_INDEX),
    Column("since", "lamp since", Kind.DATE),
    Column("why", "why", below=True),
)


def sheet_parts(
    found: Enclosure, title: str, wanted: Wanted, seen: Mapping[str, ZoneSeen], display: Display
) -> tuple[Part, ...]:
    """Plan with the newest readings, the cautions, zones, things with reasons, heat and light."""
    why = paragraphs(found.why) if found.why else ()
    cautions = paragraphs(f"{SAFE} {MEASURED}", tone=Tone.CAUTION)
    read = {name: read_words(one, display) for name, one in seen.items()}
    tables = (zone_table(found, wanted, seen, display), *_tables(found))
    return (*why, plan(found, title, read), *cautions, *tables)


def read_words(one: ZoneSeen, display: Display) -> str:
    """The newest air and humidity of a zone: `29.4 °C, 55 %`; else its surface."""
    told = [one.of(measure) for measure in (Measure.AIR, Measure.HUMIDITY)]
    shown = [r for r in told if r] or list(one.by_measure.values())
    return ", ".join(format_quantity(r.value, r.measure.unit, display) for r in shown[:2])


def zone_table(
    found: Enclosure, wanted: Wanted, seen: Mapping[str, ZoneSeen], display: Display
) -> Table:
    """Each zone with its target, what was measured of late, and its hiding places.

    What nobody has said or measured takes no room.
    """
    hides = hides_by_zone(found)
    rows = [
        _zone(z.name, _goals(z, wanted), seen.get(z.name.casefold()), hides[z.name], display)
        for z in found.zones
    ]
    others = elsewhere(seen, [z.name for z in found.zones])
    rows += [_zone(one.zone, (None,) * 4, one, None, display) for one in others]
    return Table("zones", _shown(ZONES, rows), tuple(rows), "Zones")


def _zone(
    name: str,
    goals: tuple[float | None, ...],
    one: ZoneSeen | None,
    hides: int | None,
    display: Display,
) -> tuple[Cell, ...]:
    """A row: spans in words for a reader, and each number for a program."""
    read = [one.of(m) if one else None for m in READ]
    spans = [x for r in read[:2] for x in ((r.low, r.high) if r else (None, None))]
    more = [None if r is None else r.value for r in read[2:]]
    words = (_words(goals, display), _words(spans, display, more))
    return (name, *words, one.last if one else None, hides, *goals, *spans, *more)


def _goals(zone: Zone, wanted: Wanted) -> tuple[float | None, ...]:
    goals = [target(zone.name, m, wanted) for m in (Measure.AIR, Measure.HUMIDITY)]
    return tuple(x for g in goals for x in ((g.day if g else None) or (None, None)))


def _words(
    spans: Sequence[float | None], display: Display, more: Sequence[float | None] = ()
) -> str | None:
    """Spans of air and humidity, and a surface: `25 to 31 °C, 55 to 60 %, surface 28 °C`."""
    told = [
        _span(low, high, unit, display)
        for low, high, unit in (
            (spans[0], spans[1], Unit.TEMPERATURE),
            (spans[2], spans[3], Unit.PERCENT),
        )
        if low is not None and high is not None
    ]
    units = (("surface", Unit.TEMPERATURE), ("UV index", Unit.UV_INDEX))
    told += [
        f"{name} {_single(value, unit, display)}"
        for value, (name, unit) in zip(more, units, strict=False)
        if value is not None
    ]
    return ", ".join(told) or None


def _single(value: float, unit: Unit, display: Display) -> str:
    return f"{value:g}" if unit is Unit.UV_INDEX else format_quantity(value, unit, display)


def _span(low: float, high: float, unit: Unit, display: Display) -> str:
    first, last = (format_quantity(v, unit, display) for v in (low, high))
    if first == last:
        return first
    number, _, symbol = first.partition("\u202f" if "\u202f" in first else " ")
    return f"{number} to {last}" if last.endswith(symbol) else f"{first} to {last}"


def _tables(found: Enclosure) -> Iterator[Part]:
    rows = tuple((m, _what(t), t.zone, t.why or UNSAID) for m, t in numbered(found))
    rows += tuple((f"V{n}", _opening(v), "", v.why or UNSAID) for n, v in enumerate(found.vents, 1))
    yield Table("things", THINGS, rows, "What is in it, and why", empty="nothing described")
    if found.lights:
        lights = tuple(
            (f"L{n}", x.kind, x.hours, x.leave, x.uv_index, x.since, x.why or UNSAID)
            for n, x in enumerate(found.lights, 1)
        )
        yield Table("lights", _shown(LIGHTS, lights), lights, "Light")


def _shown(columns: Sequence[Column], rows: Sequence[tuple[Cell, ...]]) -> tuple[Column, ...]:
    """The columns, those that hold nothing left to JSON."""
    return tuple(
        replace(c, text=c.text and any(r[n] is not None for r in rows))
        for n, c in enumerate(columns)
    )


def _opening(vent: Vent) -> str:
    return f"vent in the {vent.wall}, {vent.area / 100:g} cm²"


def _what(thing: object) -> str:
    if not isinstance(thing, Heat):
        return str(getattr(thing, "name", ""))
    watts = "" if thing.watts is None else f", {thing.watts:g} W"
    control = "with thermostat" if thing.thermostat else "NO THERMOSTAT"
    guard = "" if not thing.reach else (", guarded" if thing.guard else ", NO GUARD")
    return f"{thing.kind}{watts}, {control}{guard}"
