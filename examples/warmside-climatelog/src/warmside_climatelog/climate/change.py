"""How fast it grew warmer or cooler, in a unit of this plugin's own: degrees by the hour.

A degree Fahrenheit is 5/9 of a degree Celsius: NIST Special Publication 811 (2008), appendix B.8.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from warmside.api import Unit, measures

CELSIUS = measures.scale("°C/h", "C/h, °C/h, K/h")
FAHRENHEIT = measures.scale("°F/h", "F/h, °F/h", "5", over="9")
BY_THE_HOUR = measures.Measure(
    (CELSIUS, FAHRENHEIT),
    measures.style(CELSIUS, measures.rung(CELSIUS, None, 1)),
    ("4C/h", "7F/h"),
    "a change of temperature by the hour",
    measures.style(FAHRENHEIT, measures.rung(FAHRENHEIT, None, 1)),
    follows=Unit.TEMPERATURE,
    least=None,
)
CHANGE = measures.own_unit(
    "climatelog.change", "k_per_h", "warmside_climatelog.climate.change:BY_THE_HOUR"
)


@dataclass(frozen=True, slots=True)
class Change:
    """The change within an hour, in degrees, upwards above zero; `until` is its end, in hours."""

    degrees: float
    until: float


def fastest(points: Sequence[tuple[float, float]]) -> Change | None:
    """The greatest change from a point of a day's curve to that an hour later; None without two."""
    by_hour = dict(points)
    changes = [
        Change(value - by_hour[hour - 1], hour) for hour, value in points if hour - 1 in by_hour
    ]
    return max(changes, key=lambda c: abs(c.degrees), default=None)
