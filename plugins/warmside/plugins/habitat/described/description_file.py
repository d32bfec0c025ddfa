"""A description as TOML, read into an enclosure; nothing is taken that is not surely understood."""

from __future__ import annotations

import tomli

from warmside.api import BadInput, Unit
from warmside.plugins.habitat.described.checks import check_enclosure, check_names
from warmside.plugins.habitat.described.enclosure import (
    FACES,
    FITTINGS,
    HEATS,
    WALLS,
    Enclosure,
    Fitting,
    Heat,
    Light,
    Span,
    Vent,
    Zone,
)
from warmside.plugins.habitat.described.entry import HOTTEST_C, Entry

STILL = Span(0.5, 2.0)
"""Air changes an hour where the file says none (an assumption, as wide as that)."""
PLACE = ("left", "front", "bottom", "width", "depth", "height")
TABLES = ("zone", "fitting", "heat", "light", "vent")
TOP = (
    *("width", "depth", "height", "wall", "wall_thickness"),
    *("air_changes", "light_sensitive", "why"),
)


def read_description(text: str, file: str) -> Enclosure:
    """The enclosure that a file describes. Raises BadInput.

    `file` is its name for messages; without one they name no line, for what was typed apart.
    """
    try:
        data = tomli.loads(text)
    except tomli.TOMLDecodeError as wrong:
        name, line = file or "the description", getattr(wrong, "lineno", None)
        where = f"{name}, line {line}: " if line else f"{name}: "
        raise BadInput(f"{where}this is no TOML; look at quotes and brackets ({wrong})") from None
    top = Entry(data, "", 0, text, file)
    tables = {name: top.tables(name) for name in TABLES}
    zones = tuple(_zone(e, rank) for rank, e in enumerate(tables["zone"]))
    check_names(zones, tables["zone"])
    names = tuple(z.name for z in zones)
    found = Enclosure(
        width=top.length("width", least=10),
        depth=top.length("depth", least=10),
        height=top.length("height", least=10),
        wall=top.words("wall", None, WALLS),
        wall_mm=top.length("wall_thickness", least=0.5),
        air_changes=top.numbers("air_changes", STILL),
        zones=zones,
        fittings=tuple(_fitting(e, names) for e in tables["fitting"]),
        heats=tuple(_heat(e, names) for e in tables["heat"]),
        lights=tuple(_light(e) for e in tables["light"]),
        vents=tuple(_vent(e) for e in tables["vent"]),
        light_sensitive=top.yes("light_sensitive", False),
        why=top.words("why"),
    )
    top.end([*TOP, *tables])
    check_enclosure(found, tables, top)
    return found


def _zone(entry: Entry, rank: int) -> Zone:
    found = Zone(
        entry.words("name", None),
        rank,
        entry.length("left", 0.0),
        entry.length("width", least=10),
        entry.span("air", Unit.TEMPERATURE, HOTTEST_C),
        entry.span("humidity", Unit.PERCENT, 100.0),
    )
    entry.end(("name", "left", "width", "air", "humidity"))
    return found


def _fitting(entry: Entry, zones: tuple[str, ...]) -> Fitting:
    kind = entry.words("kind", None, FITTINGS)
    zone = entry.words("zone", None, zones)
    found = Fitting(kind, entry.words("name", kind), zone, entry.place(), entry.words("why"))
    entry.end(("kind", "name", "zone", "why", *PLACE))
    return found


def _heat(entry: Entry, zones: tuple[str, ...]) -> Heat:
    kind = entry.words("kind", None, HEATS)
    found = Heat(
        kind,
        entry.words("zone", None, zones),
        entry.number("watts", 2000),
        entry.place(),
        guard=entry.yes("guard", True if kind == "room" else None),
        thermostat=entry.yes("thermostat"),
        reach=entry.yes("reach", False if kind == "room" else None),
        probe=entry.words("probe"),
        why=entry.words("why"),
    )
    entry.end(("kind", "zone", "watts", "guard", "thermostat", "reach", "probe", "why", *PLACE))
    return found


def _light(entry: Entry) -> Light:
    hours = entry.number("hours", 24, 12.0)
    found = Light(
        entry.words("kind", None),
        12.0 if hours is None else hours,
        entry.yes("leave"),
        entry.number("uv_index", 20),
        entry.day("since"),
        entry.words("why"),
    )
    entry.end(("kind", "hours", "leave", "uv_index", "since", "why"))
    return found


def _vent(entry: Entry) -> Vent:
    found = Vent(entry.words("wall", None, FACES), entry.area("area"), entry.words("why"))
    entry.end(("wall", "area", "why"))
    return found
