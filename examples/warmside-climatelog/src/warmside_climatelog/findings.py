"""What is worth a look: loggers that are silent, places that are too warm."""

from __future__ import annotations

from datetime import date

from warmside.api import About, Basis, Display, Finding, Level, Unit, Valued, format_quantity
from warmside_climatelog.climate.sensors import Reading, Sensor


def silent(sensor: Sensor, hours: float, limit: Valued) -> Finding | None:
    """A logger that has given no reading for too long."""
    if hours <= limit.value:
        return None
    return Finding(
        "climatelog.silent",
        Level.LOOK_SOON,
        f"{sensor.name} has been silent for {hours:.0f} hours: look at its battery and read it "
        "out; until then look at a thermometer",
        limit.basis,
        About(enclosure_id=sensor.enclosure_id),
    )


def warm(
    sensor: Sensor, highest: float, last: Reading | None, limit: Valued, display: Display
) -> Finding | None:
    """A place that was warmer on the day than it should be; worse where it still is."""
    if highest <= limit.value:
        return None
    still = last is not None and last.degrees > limit.value
    told, most = (format_quantity(c, Unit.TEMPERATURE, display) for c in (highest, limit.value))
    now = "and still is too warm" if still else "and has cooled since"
    return Finding(
        "climatelog.warm",
        Level.ACT_NOW if still else Level.LOOK_SOON,
        f"{sensor.name} ({sensor.zone}) was at {told}, above {most}, {now}: look at the animal "
        "and at lamp and thermostat; an animal that seems unwell is for a vet who treats reptiles",
        Basis(f"{limit.basis.rule}: at most {most}", limit.basis.source),
        About(enclosure_id=sensor.enclosure_id),
    )


def checks(homeless: list[str], early: int, late: int, on: date) -> list[str]:
    """What is wrong in the plugin's own data, in a line each."""
    found = [f"the sensor {name} hangs in no enclosure; stop it" for name in homeless]
    if early:
        found.append(f"{early} readings are from before 1990; undo their import")
    if late:
        found.append(f"{late} readings are from after {on}; undo their import")
    return found
