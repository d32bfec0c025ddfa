"""The commands that hang, list and stop sensors, and what notes that a probe was checked."""

from __future__ import annotations

from datetime import date
from typing import Annotated

import typer

from warmside.api import (
    Answer,
    BadInput,
    Book,
    Refused,
    StepWriter,
    Unit,
    format_quantity,
    parse_quantity,
    said,
    session_of,
)
from warmside_climatelog.climate.sensors import PER_DEGREE
from warmside_climatelog.reading import last_reading, sensor_named, sensors
from warmside_climatelog.tables import sensor
from warmside_climatelog.telling.words import sensor_table

TAKE_BACK = "warmside undo (take it back)"
LONGEST_NAME, LONGEST_ZONE = 80, 40
MOST_OFFSET_C = 10

SensorName = Annotated[str, typer.Argument(help="Name of the sensor.")]


def add(
    context: typer.Context,
    enclosure: Annotated[str, typer.Argument(help="Code or name of the enclosure.")],
    name: SensorName,
    zone: Annotated[str, typer.Option(help="Where it hangs: warm, cool, hide …")] = "warm",
    left: Annotated[str | None, typer.Option(help="How far from the left: 20cm.")] = None,
    back: Annotated[str | None, typer.Option(help="How far from the back: 15cm.")] = None,
    offset: Annotated[str | None, typer.Option(help="Added to its readings: 0.4C.")] = None,
) -> Answer:
    """Hang a sensor in an enclosure."""
    session = session_of(context)
    with session.step(f"hung the sensor {name}") as writer:
        book = writer.book
        _check_name(book, name, zone)
        place = book.enclosure(enclosure)
        writer.insert(
            sensor,
            enclosure_id=place.id,
            name=name,
            zone=zone,
            offset_mk=thousandths(offset, book),
            left_mm=_within(left, place.width_mm, "--left", book),
            back_mm=_within(back, place.depth_mm, "--back", book),
            since=book.today.isoformat(),
        )
    hint = f"warmside climatelog import FILE --sensor {name!r} (its readings)"
    return said(f"the sensor {name} hangs in {place.code}", hints=[hint, TAKE_BACK])


def list_sensors(context: typer.Context) -> Answer:
    """List the sensors and what they measured last."""
    with session_of(context).read() as book:
        measured = [(s, last_reading(book, s, book.today)) for s in sensors(book)]
        return Answer("Sensors", (sensor_table(book, measured),))


def stop(context: typer.Context, name: SensorName) -> Answer:
    """A sensor is in use no more; what it measured stays."""
    with session_of(context).step(f"stopped the sensor {name}") as writer:
        found = sensor_named(writer.book, name)
        if found.stopped is not None:
            raise Refused(f"{found.name} was stopped on {found.stopped} already")
        writer.change(sensor, {"id": found.id}, stopped=writer.book.today.isoformat())
    return said(f"the sensor {found.name} is in use no more", hints=[TAKE_BACK])


def check_probe(writer: StepWriter, name: str, value: str, on: date) -> str:
    """Note that a probe was held beside a thermometer; a value is added to its readings."""
    found = sensor_named(writer.book, name)
    more = thousandths(value or None, writer.book)
    offset = found.offset_mk + more
    writer.change(sensor, {"id": found.id}, checked=on.isoformat(), offset_mk=offset)
    display, degrees = writer.book.home.display, offset / PER_DEGREE
    added = format_quantity(degrees, Unit.TEMPERATURE_DIFFERENCE, display)
    return f"checked the probe {found.name}; {added} is added to its readings"


def thousandths(text: str | None, book: Book) -> int:
    """A difference of temperature as it is stored; 0 where nothing was typed."""
    if text is None:
        return 0
    unit, display = Unit.TEMPERATURE_DIFFERENCE, book.home.display
    degrees = parse_quantity(text, unit, display=display, what="offset")
    if abs(degrees) > MOST_OFFSET_C:
        raise BadInput(f"an offset of {text} is none of a probe that can be used; replace it")
    return round(degrees * PER_DEGREE)


def _check_name(book: Book, name: str, zone: str) -> None:
    if not name.strip() or len(name) > LONGEST_NAME:
        raise BadInput(f"a sensor's name has 1 to {LONGEST_NAME} letters")
    if not zone.strip() or len(zone) > LONGEST_ZONE:
        raise BadInput(f"a zone has 1 to {LONGEST_ZONE} letters, such as warm or cool")
    if any(s.name.casefold() == name.casefold() for s in sensors(book)):
        raise Refused(f"there is a sensor {name} already; give this one another name")


def _within(text: str | None, most: float | None, option: str, book: Book) -> int | None:
    """A distance in the enclosure in whole millimetres."""
    if text is None:
        return None
    found = parse_quantity(text, Unit.LENGTH, display=book.home.display, what=option)
    if most is not None and found > most:
        raise BadInput(f"{option} {text} is outside the enclosure; check its size or the number")
    return round(found)
