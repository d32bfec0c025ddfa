"""The newest readings of an enclosure, by hand and by loggers, and their span over two weeks."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import UTC, date, datetime, timedelta

from warmside.api import Ask
from warmside.plugins.habitat.gradient.seen import Reading, ZoneSeen, seen
from warmside.plugins.habitat.kinds import ZONE_READ
from warmside.plugins.habitat.logs.probes import Measure
from warmside.plugins.habitat.reading.loggers import probes_in
from warmside.plugins.habitat.reading.measured import extremes, last_reading, midnight

DAYS = 14
"""Older readings say nothing of how it is now."""
FIELDS = {
    "air_c": Measure.AIR,
    "surface_c": Measure.SURFACE,
    "humidity_percent": Measure.HUMIDITY,
    "uv_index": Measure.UV,
}


def seen_here(ask: Ask, enclosure_id: int, on: date) -> dict[str, ZoneSeen]:
    """The zones that were read in the two weeks up to a day, by name in small letters."""
    first = on - timedelta(days=DAYS - 1)
    return seen([*_logged(ask, enclosure_id, first, on), *_by_hand(ask, enclosure_id, first, on)])


def _logged(ask: Ask, enclosure_id: int, first: date, on: date) -> Iterator[Reading]:
    zone = ask.book.home.zone
    begin, after = midnight(first, zone), midnight(on + timedelta(days=1), zone)
    for probe in probes_in(ask.book, enclosure_id):
        last = last_reading(ask.book, probe, on)
        span = extremes(ask.book, probe, begin, after)
        if last is not None and span is not None and last[0] >= begin:
            day = datetime.fromtimestamp(last[0], UTC).astimezone(zone).date()
            yield Reading(probe.zone, probe.measure, last[1], day, *span)


def _by_hand(ask: Ask, enclosure_id: int, first: date, on: date) -> Iterator[Reading]:
    kind = ZONE_READ.name
    for event in ask.book.events(kind, enclosure=enclosure_id, since=first, until=on):
        for name, measure in FIELDS.items():
            value = event.data.get(name)
            if value is not None:
                yield Reading(event.data["zone"], measure, value, event.day, value, value)
