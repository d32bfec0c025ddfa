"""Sensors and days as tables, the line of a label, the answer to others."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from datetime import UTC, date, datetime

from warmside.api import (
    Basis,
    Book,
    Cell,
    Column,
    Display,
    Estimate,
    Kind,
    LabelLine,
    Mark,
    Source,
    Table,
    Unit,
    format_quantity,
)
from warmside_climatelog.climate.days import Day
from warmside_climatelog.climate.sensors import PER_DEGREE, Reading, Sensor

MEASURED = Source("readings of the keeper's own loggers", Mark.KEEPERS_OWN)
SENSORS = (
    Column("sensor", "sensor", Kind.CODE),
    Column("enclosure", "in", Kind.CODE),
    Column("zone", "zone"),
    Column("temperature", "last reading", Unit.TEMPERATURE),
    Column("at", "at", Kind.MOMENT),
    Column("offset", "added", Unit.TEMPERATURE_DIFFERENCE),
    Column("checked", "probe checked", Kind.DATE),
    Column("stopped", "stopped", Kind.DATE, text=False),
)
DAYS = (
    Column("day", "day", Kind.DATE),
    Column("low", "lowest", Unit.TEMPERATURE),
    Column("high", "highest", Unit.TEMPERATURE),
    Column("mean", "mean", Unit.TEMPERATURE),
    Column("readings", "readings", Unit.COUNT),
)
NONE_YET = "no sensor yet; hang one: warmside climatelog add ENCLOSURE NAME --zone warm"


def sensor_table(book: Book, measured: Iterable[tuple[Sensor, Reading | None]]) -> Table:
    """The sensors with what they measured last, a line each."""
    rows = tuple(_sensor_row(book, sensor, reading) for sensor, reading in measured)
    return Table("sensors", SENSORS, rows, empty=NONE_YET)


def _sensor_row(book: Book, sensor: Sensor, reading: Reading | None) -> tuple[Cell, ...]:
    place = book.enclosures.get(sensor.enclosure_id or 0)
    return (
        sensor.name,
        place.code if place else None,
        sensor.zone,
        reading.degrees if reading else None,
        _instant(reading) if reading else None,
        sensor.offset_mk / PER_DEGREE,
        sensor.checked,
        sensor.stopped,
    )


def _instant(reading: Reading) -> datetime:
    return datetime.fromtimestamp(reading.at, UTC)


def day_table(sensor: Sensor, days: Mapping[date, Day]) -> Table:
    """The extremes of each day, oldest first."""
    rows = tuple(
        (day, sensor.degrees(d.low), sensor.degrees(d.high), sensor.degrees(d.mean), d.readings)
        for day, d in days.items()
    )
    return Table("readings", DAYS, rows, empty="nothing was measured on these days")


def label_line(limit: float, display: Display) -> LabelLine:
    """What a sitter should know of a place with a logger."""
    most = format_quantity(limit, Unit.TEMPERATURE, display)
    return LabelLine("climatelog.most", f"at most {most} at the logger")


def zone_answer(sensor: Sensor, day: Day) -> Estimate:
    """What a plugin is told that asks for a zone's temperature on a day."""
    mean, low, high = (sensor.degrees(n) for n in (day.mean, day.low, day.high))
    rule = f"mean of {day.readings} readings of {sensor.name}, {sensor.zone}"
    return Estimate(mean, low, high, Unit.TEMPERATURE, Basis(rule, MEASURED))
