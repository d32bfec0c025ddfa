"""The zones of a set-up as a table: what each should be, what was measured of late, its hides."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from msgspec.structs import replace

from warmside.api import Cell, Column, Display, Kind, Table, Unit, format_quantity
from warmside.plugins.habitat.described.choice import hides_by_zone
from warmside.plugins.habitat.described.enclosure import Enclosure, Zone
from warmside.plugins.habitat.gradient.seen import ZoneSeen, elsewhere
from warmside.plugins.habitat.gradient.targets import Wanted, target
from warmside.plugins.habitat.logs.probes import Measure

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
    return Table("zones", shown(ZONES, rows), tuple(rows), "Zones")


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
        span_words(low, high, unit, display)
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


def span_words(low: float, high: float, unit: Unit, display: Display) -> str:
    """`28 to 31 °C`; one value where both ends are shown alike."""
    first, last = (format_quantity(v, unit, display) for v in (low, high))
    if first == last:
        return first
    number, _, symbol = first.partition("\u202f" if "\u202f" in first else " ")
    return f"{number} to {last}" if last.endswith(symbol) else f"{first} to {last}"


def shown(columns: Sequence[Column], rows: Sequence[tuple[Cell, ...]]) -> tuple[Column, ...]:
    """The columns, those that hold nothing left to JSON."""
    return tuple(
        replace(c, text=c.text and any(r[n] is not None for r in rows))
        for n, c in enumerate(columns)
    )
