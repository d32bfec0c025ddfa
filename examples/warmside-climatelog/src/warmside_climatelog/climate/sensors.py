"""A sensor, and what it measured last."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date

PER_DEGREE = 1000


@dataclass(frozen=True, slots=True)
class Sensor:
    """A probe in an enclosure; `place` is its distance from the left and from the back, in mm.

    `offset_mk` thousandths of a degree are added to all that it measured.
    """

    id: int
    enclosure_id: int | None
    name: str
    zone: str
    offset_mk: int
    place: tuple[int, int] | None
    since: date
    checked: date | None = None
    stopped: date | None = None

    def degrees(self, stored: float) -> float:
        """A stored reading in degrees Celsius, with the offset of the probe."""
        return (stored + self.offset_mk) / PER_DEGREE


@dataclass(frozen=True, slots=True)
class Reading:
    """What a sensor measured at an instant, in seconds since 1970 and degrees Celsius."""

    at: int
    degrees: float
