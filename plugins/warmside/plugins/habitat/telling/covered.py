"""What the warmth covers, in a table: the floor, and who can lie coiled in it whole."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from msgspec.structs import replace

from warmside.api import Cell, Column, Display, Kind, Part, Table, Unit, format_quantity, paragraphs
from warmside.plugins.habitat.described.enclosure import Enclosure
from warmside.plugins.habitat.heat.covered import Coil, fits, floor_share

COLUMNS = (
    Column("heat", "heat source"),
    Column("floor", "of the floor", Unit.PERCENT),
    Column("animal", "animal", Kind.CODE),
    Column("coil", "coiled whole in it", Kind.YESNO),
)
UNKNOWN = (
    "Whether a snake can lie in it coiled is told where its length and girth are on record: "
    "warmside record measured ANIMAL --total 120cm --girth 13cm."
)


def covered_parts(found: Enclosure, coils: Sequence[Coil], display: Display) -> Iterator[Part]:
    """A row for each source and each snake; the disc that each takes."""
    sources = [h for h in found.heats if h.kind != "room"]
    rows: list[tuple[Cell, ...]] = [
        (h.kind, 100 * floor_share(found, h), c.animal if c else None, fits(h, c) if c else None)
        for h in sources
        for c in coils or (None,)
    ]
    named = any(coil.animal for coil in coils)
    columns = tuple(
        replace(c, text=named if c.key == "animal" else bool(coils) if c.key == "coil" else True)
        for c in COLUMNS
    )
    title = "What the warmth covers"
    yield Table("covered", columns, tuple(rows), title, empty="no heat source described")
    yield from paragraphs(*(_disc(coil, display) for coil in coils))
    if sources and not coils:
        yield from paragraphs(UNKNOWN)


def _disc(coil: Coil, display: Display) -> str:
    low, high = (format_quantity(10 * round(mm / 10), Unit.LENGTH, display) for mm in coil.disc_mm)
    across = low if low == high else f"{low} to {high}"
    return f"Coiled flat {coil.animal or 'it'} takes a disc of {across} across, or more."
