"""The UV index of an enclosure where it is highest, as measured, and who needs how much."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import UTC, date, datetime, timedelta

from msgspec import Struct

from warmside.api import Ask
from warmside.plugins.habitat.gradient.targets import Span
from warmside.plugins.habitat.kinds import ZONE_READ
from warmside.plugins.habitat.light.uv import NEEDS_ZONE
from warmside.plugins.habitat.logs.probes import Measure
from warmside.plugins.habitat.reading.describing import described
from warmside.plugins.habitat.reading.loggers import probes_in
from warmside.plugins.habitat.reading.measured import extremes, last_reading, midnight
from warmside.plugins.habitat.reading.wanted import figures_of, inside, wanted

OLD_DAYS = 180
"""Lamps fade: an older reading says nothing of today (common practice, no source)."""
LOGGED_DAYS = 14


class Read(Struct, frozen=True):
    """A UV index that was measured: where, and on which day."""

    index: float
    where: str
    day: date


class Uv(Struct, frozen=True):
    """What those inside should have where they bask, who says so, whether one of them needs it,
    and the highest that was read since the lamps are in."""

    span: Span | None
    by: str
    is_needed: bool
    read: Read | None


def uv_here(ask: Ask, enclosure_id: int, on: date) -> Uv:
    """As of a day; of each place the newest reading counts, of loggers the most of two weeks."""
    spans = wanted(ask, enclosure_id, on)
    zones = [f.uv_zone for a in inside(ask, enclosure_id, on) if (f := figures_of(ask, a))]
    needed = any(zone is not None and zone.low >= NEEDS_ZONE for zone in zones)
    first = max(_lamps_since(ask, enclosure_id, on), on - timedelta(days=OLD_DAYS))
    found = {r.where.casefold(): r for r in _read(ask, enclosure_id, first, on)}
    highest = max(found.values(), key=lambda r: r.index, default=None)
    return Uv(spans.uv, spans.by.get("uv", ""), needed, highest)


def _read(ask: Ask, enclosure_id: int, first: date, on: date) -> Iterator[Read]:
    """Described, by hand, by loggers: of one place the last given counts."""
    set_up = described(ask.book, enclosure_id, on)
    for light in set_up.lights if set_up else ():
        if light.uv_index is not None and light.since is not None and light.since >= first:
            yield Read(light.uv_index, f"below the {light.kind}, as described", light.since)
    for event in ask.book.events(ZONE_READ.name, enclosure=enclosure_id, since=first, until=on):
        if event.data.get("uv_index") is not None:
            yield Read(event.data["uv_index"], event.data["zone"], event.day)
    yield from _logged(ask, enclosure_id, max(first, on - timedelta(days=LOGGED_DAYS - 1)), on)


def _logged(ask: Ask, enclosure_id: int, first: date, on: date) -> Iterator[Read]:
    zone = ask.book.home.zone
    begin, after = midnight(first, zone), midnight(on + timedelta(days=1), zone)
    for probe in probes_in(ask.book, enclosure_id):
        if probe.measure is not Measure.UV:
            continue
        span, last = extremes(ask.book, probe, begin, after), last_reading(ask.book, probe, on)
        if span is not None and last is not None:
            day = datetime.fromtimestamp(last[0], UTC).astimezone(zone).date()
            yield Read(span[1], probe.zone, day)


def _lamps_since(ask: Ask, enclosure_id: int, on: date) -> date:
    """Since when the newest lamp is in use: what was read before was of another."""
    set_up = described(ask.book, enclosure_id, on)
    days = [light.since for light in set_up.lights if light.since] if set_up else []
    return max(days, default=date.min)
