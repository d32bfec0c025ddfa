"""The enclosure from above, to scale, with its sensors and what they measured last."""

from __future__ import annotations

from collections.abc import Iterator

from warmside.api import Display, Unit, format_quantity, shapes
from warmside_climatelog.climate.day_here import DayHere, Measured
from warmside_climatelog.climate.sensors import Reading

WIDTH_MM = 150.0  # of the plan on paper
RADIUS_MM = 2.5
MARGIN_MM = 6.0


def plan(day: DayHere) -> shapes.Drawing | None:
    """The plan; None where nobody has measured the enclosure.

    A sensor is a full disc where it is too warm, an empty one where it is not, and a hatched one
    where nothing is known of it.
    """
    if day.place.width_mm is None or day.place.depth_mm is None:
        return None
    scale = WIDTH_MM / day.place.width_mm
    depth, ratio = day.place.depth_mm * scale, f"1 : {1 / scale:.1f}"
    drawn: list[shapes.Shape] = [shapes.Box((0, 0), WIDTH_MM, depth)]
    drawn.extend(_discs(day, scale))
    drawn.append(shapes.Label((0, depth + MARGIN_MM - 1), f"front; {ratio}; full is too warm"))
    return shapes.Drawing(
        "plan",
        f"{day.place.name} from above",
        WIDTH_MM,
        depth + MARGIN_MM,
        "mm",
        tuple(drawn),
        tuple(_line(m, day.display) for m in day.measured),
        {"scale": ratio, "sensors": [_data(m) for m in day.measured]},
    )


def _discs(day: DayHere, scale: float) -> Iterator[shapes.Shape]:
    for measured in day.measured:
        if measured.sensor.place is not None:
            left, back = (n * scale for n in measured.sensor.place)
            below = (left, back + 2.4 * RADIUS_MM)
            yield shapes.Disc((left, back), RADIUS_MM, _fill(measured.last, day.most.value))
            yield shapes.Label(below, _said(measured, day.display), anchor="middle")


def _fill(reading: Reading | None, most: float) -> shapes.Fill:
    if reading is None:
        return shapes.Fill.HATCH
    return shapes.Fill.FULL if reading.degrees > most else shapes.Fill.NONE


def _said(measured: Measured, display: Display) -> str:
    last = measured.last
    degrees = format_quantity(last.degrees, Unit.TEMPERATURE, display) if last else "–"
    return f"{measured.sensor.name} {degrees}"


def _line(measured: Measured, display: Display) -> str:
    sensor, where = measured.sensor, "no place noted"
    if sensor.place is not None:
        left, back = (format_quantity(n, Unit.LENGTH, display) for n in sensor.place)
        where = f"{left} from the left, {back} from the back"
    return f"{_said(measured, display)} ({sensor.zone}): {where}"


def _data(measured: Measured) -> dict[str, object]:
    sensor, last = measured.sensor, measured.last
    left, back = sensor.place or (None, None)
    return {
        "sensor": sensor.name,
        "left_mm": left,
        "back_mm": back,
        "temperature_c": last.degrees if last else None,
    }
