"""Where walls sweat, in words: of one wall, and zone by zone."""

from __future__ import annotations

from collections.abc import Collection, Sequence

from warmside.api import (
    Basis,
    Column,
    Fact,
    Kind,
    Mark,
    Part,
    Source,
    Table,
    Tone,
    Unit,
    paragraphs,
)
from warmside.plugins.habitat.heat.sweating import Sweat, ZoneSweat

FILM = Source(
    "inner face of a wall by ISO 6946, dew point by ASHRAE 2017, as quoted", Mark.SECONDARY
)
CAUTION = (
    "An estimate: corners, a pane in a draught and what stands close to it sweat earlier. Glass "
    "that is wet for days tells of too little air, and wet bedding makes ill; look at it, and keep "
    "mains away from where it drips."
)
COLUMNS = (
    Column("zone", "zone"),
    Column("air", "air", Unit.TEMPERATURE),
    Column("humidity", "humidity", Unit.PERCENT),
    Column("face", "wall inside", Unit.TEMPERATURE),
    Column("from", "sweats from", Unit.PERCENT),
    Column("wet", "sweats", Kind.YESNO),
    Column("is_read", "air was read", Kind.YESNO),
)


def wall_parts(one: Sweat) -> tuple[Part, ...]:
    """A single wall: its inner face, from which humidity on it sweats, whether it does."""
    basis = Basis("the inner face against the dew point", FILM)
    return (
        Fact("face", "inner face of the wall", one.face_c, Unit.TEMPERATURE, basis),
        Fact("sweats_from", "it sweats from a humidity of", one.from_percent, Unit.PERCENT),
        Fact("sweats", "it sweats now", one.wet, Kind.YESNO),
    )


def zones_parts(
    zones: Sequence[ZoneSweat], read: Collection[str], vapour: str, dew_c: float
) -> tuple[Part, ...]:
    """The dew point of the air and each zone's wall.

    `read` are the zones whose air was read, `vapour` says what the dew point rests on.
    """
    rows = tuple(
        (z.zone, z.air_c, z.percent, z.wall.face_c, z.wall.from_percent, z.wall.wet, z.zone in read)
        for z in zones
    )
    told = Fact("dew_point", "dew point of its air", dew_c, Unit.TEMPERATURE, Basis(vapour, FILM))
    table = Table("zones", COLUMNS, rows, "Its walls, zone by zone")
    return (told, table, *paragraphs(_words(zones)), *paragraphs(CAUTION, tone=Tone.CAUTION))


def _words(zones: Sequence[ZoneSweat]) -> str:
    wet = [z.zone for z in zones if z.wall.wet]
    return f"The wall sweats at: {', '.join(wet)}." if wet else "No wall sweats."
