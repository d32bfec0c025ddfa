"""An enclosure held against published rules, as a table."""

from __future__ import annotations

from collections.abc import Sequence

from warmside.api import Cell, Column, Kind, Part, Table, Tone, Unit, paragraphs
from warmside.plugins.habitat.space.rules import Box, Held, stretches_out

LAW = "Your local law decides first. No rule here says that an animal is well in it."
COLUMNS = (
    Column("name", "rule"),
    Column("ok", "met", Kind.YESNO),
    Column("margin", "margin", Unit.PERCENT),
    Column("needed_floor", "floor", Unit.AREA),
    Column("needed_width", "width", Unit.LENGTH),
    Column("needed_depth", "depth", Unit.LENGTH),
    Column("needed_height", "height", Unit.LENGTH),
    Column("given_floor", "given floor", Unit.AREA, text=False),
    Column("given_width", "given width", Unit.LENGTH, text=False),
    Column("given_depth", "given depth", Unit.LENGTH, text=False),
    Column("given_height", "given height", Unit.LENGTH, text=False),
    Column("source", "source", below=True),
)


def space_parts(
    found: Sequence[Held], given: Box, total_mm: float, unknown: Sequence[str]
) -> tuple[Part, ...]:
    """The rules with what they ask, whether it can stretch out, and what could not be said."""
    rows = tuple(_row(one, given) for one in found)
    table = Table("rules", COLUMNS, rows, empty="no rule that ships speaks of this species")
    straight = "can" if stretches_out(given, total_mm) else "cannot"
    words = [f"It {straight} lie stretched out straight on the floor."]
    if unknown:
        words.append(f"Not said, for want of --to-vent: {'; '.join(unknown)}.")
    return (table, *paragraphs(*words), *paragraphs(LAW, tone=Tone.CAUTION))


def _row(held: Held, given: Box) -> tuple[Cell, ...]:
    asked = held.needed
    floor = None if asked.floor_m2 is None else asked.floor_m2 * 1e6
    return (
        held.rule.name,
        held.ok,
        100 * held.margin,
        floor,
        asked.width,
        asked.depth,
        asked.height,
        given.floor_m2 * 1e6,
        given.width,
        given.depth,
        given.height,
        f"{held.rule.source.text} ({held.rule.source.mark.value})",
    )
