"""How long an enclosure stays warm enough when its heat fails."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date

from warmside.api import About, Ask, Basis, Estimate, Mark, Source, Unit
from warmside.plugins.habitat.described.enclosure import Enclosure
from warmside.plugins.habitat.heat.described import warm_after_cut
from warmside.plugins.habitat.reading.describing import described
from warmside.plugins.habitat.reading.wanted import limits, wanted

MODEL = Source(
    "Newton's law of cooling, with the capacity of air, walls, substrate and water assumed",
    Mark.COMMON_PRACTICE,
)
LONG_H = 72.0
"""Said where the room itself is warm enough, or where it takes longer than anybody waits."""


def warm_hours(ask: Ask, about: object, on: date) -> Iterator[Estimate]:
    """Hours until the coldest that the most sensitive of those inside may be left in.

    From the middle of its zones' targets, in a room as cold as the keeper's setting says; nothing
    where it is not described, has no targets, or no limit of its animals is known.
    """
    if not isinstance(about, About) or about.enclosure_id is None:
        return
    place = about.enclosure_id
    found = described(ask.book, place, on)
    limit = limits(ask, place, on, wanted(ask, place, on)).cold
    start = _middle(found) if found else None
    if found is None or limit is None or start is None:
        return
    room = float(ask.setting("habitat", "cut_room", about))
    hours = warm_after_cut(found, start, room, limit)
    low, high = (LONG_H, LONG_H) if hours is None else (min(h, LONG_H) for h in hours)
    rule = f"from {start:.0f} °C to {limit:.0f} °C in a room of {room:.0f} °C"
    yield Estimate(None, low, high, Unit.HOURS, Basis(rule, MODEL))


def _middle(found: Enclosure) -> float | None:
    """The mean of the middles of the zones' targets, by their widths; None without any."""
    zones = [(zone.air, zone.width) for zone in found.zones if zone.air is not None]
    whole = sum(width for _, width in zones)
    return sum((air.low + air.high) / 2 * width for air, width in zones) / whole if whole else None
