"""The kinds of event that this plugin adds."""

from __future__ import annotations

from warmside.api import EventKind, Subject, Unit, fields


class ZoneRead:
    """What was read at one place of an enclosure, by hand."""

    zone: str = fields.words("where: warm side, hide, basking stone", optional=False)
    air_c: float | None = fields.measure(
        Unit.TEMPERATURE, "of the air", least=-20, most=90, optional=True
    )
    surface_c: float | None = fields.measure(
        Unit.TEMPERATURE, "of a surface", least=-20, most=150, optional=True
    )
    humidity_percent: float | None = fields.measure(
        Unit.PERCENT, "relative humidity", least=0, most=100, optional=True
    )
    uv_index: float | None = fields.measure(
        Unit.UV_INDEX, "UV index", least=0, most=30, optional=True
    )


class ReadOut:
    """A logger's file was read."""

    logger: str = fields.words("which logger", optional=False)
    readings: int = fields.whole(
        "how many new readings", most=100_000_000, required=True, after="new readings"
    )


class Metered:
    """What the heat of an enclosure used, by a meter or by how long it was on."""

    used_kwh: float | None = fields.measure(
        Unit.ELECTRICITY, "as the meter says", least=0, most=1000, optional=True
    )
    over_hours: float | None = fields.measure(
        Unit.HOURS, "over so long", least=0.5, most=8760, optional=True
    )
    on_percent: float | None = fields.measure(
        Unit.PERCENT, "share of the time that it was on", least=0, most=100, optional=True
    )
    outside_c: float | None = fields.measure(
        Unit.TEMPERATURE, "of the room meanwhile", least=-20, most=50, optional=True
    )
    inside_c: float | None = fields.measure(
        Unit.TEMPERATURE, "of the enclosure meanwhile", least=-20, most=60, optional=True
    )


ZONE_READ = EventKind("habitat.read", "zone read", ZoneRead, Subject.ENCLOSURE)
READ_OUT = EventKind("habitat.readout", "logger read out", ReadOut, Subject.ENCLOSURE)
METERED = EventKind(
    "habitat.metered", "heat metered", Metered, Subject.ENCLOSURE, one_of=("used_kwh", "on_percent")
)
