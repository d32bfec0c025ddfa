"""How long each zone stays warm enough when the power is cut, in words and as a table."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import NamedTuple

from warmside.api import (
    Basis,
    Fact,
    Mark,
    Part,
    Source,
    Tone,
    Unit,
    paragraphs,
)
from warmside.plugins.habitat.described.enclosure import Enclosure
from warmside.plugins.habitat.heat.described import warm_after_cut
from warmside.plugins.habitat.telling.spans_by_zone import SpanRow, spans_by_zone

LUMPED = Source(
    "Newton's law of cooling with a third to all of its mass; specific heats", Mark.FROM_MEMORY
)
UNTIL_THEN = (
    "Until power is back keepers cover the enclosure, keep doors shut, warm the room, and do not "
    "feed; no flame and no hot bottle against the animal. Ask a vet if it was below its limit."
)


class Limited(NamedTuple):
    """The least temperature in degrees C that is safe, and who says so."""

    celsius: float
    by: str


def cut_parts(
    found: Enclosure, room_c: float, limit: Limited | None, zones_c: Mapping[str, float]
) -> Iterator[Part]:
    """Hours until each zone is down to a limit, as a range; what keepers do until then."""
    if limit is None:
        yield from paragraphs("For a power cut give the limit of your species: --limit 18C.")
        return
    if room_c >= limit.celsius:
        yield from paragraphs(
            f"Without heat: the room itself is warm enough for {limit.celsius:.0f} °C, {limit.by}."
        )
        return
    rows = [_row(found, zone, held, room_c, limit.celsius) for zone, held in zones_c.items()]
    warmest = rows[0]
    basis = Basis(f"down to {limit.celsius:.1f} °C, {limit.by}", LUMPED)
    yield Fact("cut_low", "without heat the warmest zone is above it for", warmest[2], Unit.HOURS)
    yield Fact("cut_high", "to", warmest[3], Unit.HOURS, basis)
    if len(rows) > 1:
        heads = ("from", "above the limit for")
        yield spans_by_zone("cut", "Without heat, zone by zone", heads, Unit.HOURS, rows)
    yield from paragraphs(UNTIL_THEN, tone=Tone.CAUTION)


def _row(found: Enclosure, zone: str, held_c: float, room_c: float, limit_c: float) -> SpanRow:
    hours = warm_after_cut(found, held_c, room_c, limit_c)
    return (zone, held_c, *(hours or (None, None)))
