"""When a logger is silent and when a place is too warm; what is shipped for species."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date, timedelta

from warmside.api import ShippedValue, sourced_rows
from warmside_climatelog.climate.sensors import Reading, Sensor


def shipped() -> Iterator[ShippedValue]:
    """The highest temperature of a place, for the species of the shipped table."""
    for row in sourced_rows("warmside_climatelog", "limits"):
        yield ShippedValue(row["latin"], "most", row["most_c"], row.source)


def silent_hours(last: Reading | None, set_up: int, moment: int) -> float:
    """Hours without a reading, counted from when the sensor was set up where there is none."""
    return (moment - max(set_up, last.at if last else set_up)) / 3600


def in_use(sensor: Sensor, on: date) -> bool:
    """Whether a sensor hangs in an enclosure on a day."""
    ended = sensor.stopped is not None and sensor.stopped <= on
    return sensor.enclosure_id is not None and sensor.since <= on and not ended


def probe_due(sensor: Sensor, days: int) -> date:
    """The day on which its probe is held beside a thermometer again."""
    return (sensor.checked or sensor.since) + timedelta(days=days)
