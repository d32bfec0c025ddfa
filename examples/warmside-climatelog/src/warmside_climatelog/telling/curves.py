"""A day by the hours of the clock, the last days as they went on, and many days in short."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from datetime import date
from zoneinfo import ZoneInfo

from warmside.api import Unit, charts
from warmside_climatelog.climate.day_here import DayHere, Measured
from warmside_climatelog.climate.days import Day, Quarter, by_clock, in_a_row, with_pauses
from warmside_climatelog.climate.sensors import Sensor


def day_curve(day: DayHere) -> charts.Chart:
    """The curve of each sensor over the 24 hours of a day, and the limit."""
    lines = [_curve(m, day.zone) for m in day.measured if m.quarters]
    lines.append(charts.Line("at most", (0.0, 24.0), (day.most.value, day.most.value)))
    return charts.Chart(
        "day",
        f"Temperature on {day.on}",
        "hour of the day",
        "temperature",
        Unit.TEMPERATURE,
        tuple(lines),
        axis=charts.Axis.HOURS,
    )


def _curve(measured: Measured, zone: ZoneInfo) -> charts.Line:
    sensor = measured.sensor
    points = with_pauses((h, sensor.degrees(v)) for h, v in by_clock(measured.quarters, zone))
    x, y = zip(*points, strict=True)
    return charts.Line(sensor.name, x, y)


def recent_curve(sensor: Sensor, quarters: Sequence[Quarter]) -> charts.Chart:
    """The curve of the last days by the instants, across midnight and a change of the clock."""
    curve = in_a_row(quarters)
    x = tuple(at for at, _ in curve)
    y = tuple(None if value is None else sensor.degrees(value) for _, value in curve)
    return charts.Chart(
        "recent",
        f"{sensor.name}, as it went on",
        "time",
        "temperature",
        Unit.TEMPERATURE,
        (charts.Line(sensor.name, x, y),),
        axis=charts.Axis.INSTANTS,
    )


def readings_bars(sensor: Sensor, days: Mapping[date, Day]) -> charts.Chart:
    """How many readings each day has: a day with few had a pause."""
    x = tuple(float(d.toordinal()) for d in days)
    y = tuple(float(d.readings) for d in days.values())
    return charts.Chart(
        "counted",
        f"{sensor.name}, readings a day",
        "day",
        "readings",
        Unit.COUNT,
        bars=(charts.Bars("readings", x, y),),
        low=True,
    )


def days_band(sensor: Sensor, days: Mapping[date, Day]) -> charts.Chart:
    """The range of each day between its lowest and highest reading, and the mean."""
    x = tuple(float(d.toordinal()) for d in days)
    low = tuple(sensor.degrees(d.low) for d in days.values())
    high = tuple(sensor.degrees(d.high) for d in days.values())
    mean = tuple(sensor.degrees(d.mean) for d in days.values())
    return charts.Chart(
        "days",
        f"{sensor.name}, day by day",
        "day",
        "temperature",
        Unit.TEMPERATURE,
        (charts.Line("mean", x, mean),),
        (charts.Band("lowest to highest", x, low, high),),
    )
