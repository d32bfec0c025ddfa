"""What is known of the heat of an enclosure: what its zones should be, and what was metered."""

from __future__ import annotations

from datetime import date, timedelta

from warmside.api import Ask
from warmside.plugins.habitat.described.enclosure import Enclosure
from warmside.plugins.habitat.gradient.targets import target
from warmside.plugins.habitat.heat.metered import metered
from warmside.plugins.habitat.kinds import METERED
from warmside.plugins.habitat.logs.probes import Measure
from warmside.plugins.habitat.reading.coils import coils_inside
from warmside.plugins.habitat.reading.wanted import limits, wanted
from warmside.plugins.habitat.telling.heat import Heated

OLD_DAYS = 365
"""What was metered longer ago was perhaps another set-up."""


def zones_to_hold(ask: Ask, enclosure_id: int, found: Enclosure, on: date) -> dict[str, float]:
    """The middle of each zone's target by day, of zones that have one."""
    spans, held = wanted(ask, enclosure_id, on), {}
    for zone in found.zones:
        goal = target(zone.name, Measure.AIR, spans)
        if goal and goal.day:
            held[zone.name] = sum(goal.day) / 2
    return held


def heated(ask: Ask, enclosure_id: int, found: Enclosure, on: date) -> Heated:
    """Temperatures by zone, the newest metering of the last year, and the snakes inside."""
    since, watts = on - timedelta(days=OLD_DAYS), sum(h.watts or 0.0 for h in found.heats)
    zones, coils = zones_to_hold(ask, enclosure_id, found, on), coils_inside(ask, enclosure_id, on)
    limit = limits(ask, enclosure_id, on, wanted(ask, enclosure_id, on)).cold
    noted = ask.book.events(METERED.name, enclosure=enclosure_id, since=since, until=on)
    for event in reversed(noted):
        if (one := metered(event.data, watts)) is not None:
            return Heated(zones, one, event.day, coils, limit)
    return Heated(zones, None, None, coils, limit)
