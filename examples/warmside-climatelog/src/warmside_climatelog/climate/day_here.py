"""An enclosure's day: its sensors, what they measured, and how warm it may be."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date
from zoneinfo import ZoneInfo

from warmside.api import Display, Enclosure, Valued
from warmside_climatelog.climate.days import Quarter
from warmside_climatelog.climate.sensors import Reading, Sensor


@dataclass(frozen=True, slots=True)
class Measured:
    """A sensor, its last reading up to the end of the day, and the day by quarter hours."""

    sensor: Sensor
    last: Reading | None
    quarters: tuple[Quarter, ...]


@dataclass(frozen=True, slots=True)
class DayHere:
    """A day of an enclosure; `most` is the highest temperature that it should have."""

    place: Enclosure
    on: date
    measured: tuple[Measured, ...]
    most: Valued
    zone: ZoneInfo
    display: Display
