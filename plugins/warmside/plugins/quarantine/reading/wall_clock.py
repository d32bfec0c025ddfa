"""Recorded events on the clock of the home zone."""

from __future__ import annotations

from datetime import datetime, time
from zoneinfo import ZoneInfo

from warmside.api import Event


def wall_time(event: Event, zone: ZoneInfo) -> datetime:
    """The event on the home zone's clock, without zone; midnight where only the day is known."""
    if event.at is None:
        return datetime.combine(event.day, time())
    return event.at.astimezone(zone).replace(tzinfo=None)
