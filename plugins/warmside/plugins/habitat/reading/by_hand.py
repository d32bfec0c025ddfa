"""Whether a thermometer that was read by hand says that a zone is well again."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import UTC, date, datetime

from warmside.api import Ask, Event
from warmside.plugins.habitat.gradient.limits import Limits
from warmside.plugins.habitat.gradient.stretches import Alarm
from warmside.plugins.habitat.kinds import ZONE_READ

ABOVE = ("hot", "over")
"""Alarms of what is too warm; all others are of what is too cold."""


def is_well_by_hand(ask: Ask, enclosure_id: int, alarm: Alarm, limits: Limits, on: date) -> bool:
    """Whether the newest reading of its zone since then is within the limit."""
    zone = ask.book.home.zone
    since = datetime.fromtimestamp(alarm.until, UTC)
    values = [
        value
        for event in ask.book.events(
            ZONE_READ.name,
            "climate",
            enclosure=enclosure_id,
            since=since.astimezone(zone).date(),
            until=on,
        )
        if _is_later(event, since, since.astimezone(zone).date())
        for value in _of_zone(event, alarm.zone, limits)
    ]
    if not values:
        return False
    return values[-1] <= alarm.limit if alarm.what in ABOVE else values[-1] >= alarm.limit


def _is_later(event: Event, since: datetime, day: date) -> bool:
    return event.at > since if event.at is not None else event.day > day


def _of_zone(event: Event, zone: str, limits: Limits) -> Iterator[float]:
    """What an event says of a zone: the side that it is on, or itself by its name."""
    if event.kind == ZONE_READ.name:
        meant = str(event.data["zone"]).casefold().strip() == zone.casefold().strip()
        value = event.data.get("air_c") if meant else None
    else:
        key = {"warm": "warm_c", "cool": "cool_c"}.get(limits.wanted.side(zone))
        value = event.data.get(key) if key else None
    if value is not None:
        yield float(value)
