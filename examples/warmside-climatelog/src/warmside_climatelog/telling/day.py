"""An enclosure's day as the report and the command show it."""

from __future__ import annotations

from collections.abc import Iterator

from warmside.api import Basis, Fact, Part, Unit, Words
from warmside_climatelog.climate.change import CHANGE, fastest
from warmside_climatelog.climate.day_here import DayHere
from warmside_climatelog.climate.days import by_clock
from warmside_climatelog.telling.curves import day_curve
from warmside_climatelog.telling.plan import plan
from warmside_climatelog.telling.words import MEASURED

NO_PLAN = "for a plan, note how wide and deep it is: warmside enclosure change {} --width --depth"


def day_parts(day: DayHere) -> tuple[Part, ...]:
    """The limit with its basis, how fast it changed, the curve over the hours, the plan."""
    most = Fact("most", "at most", day.most.value, Unit.TEMPERATURE, day.most.basis)
    parts = (most, *_fastest(day), day_curve(day))
    return (*parts, plan(day) or Words(NO_PLAN.format(day.place.code)))


def _fastest(day: DayHere) -> Iterator[Fact]:
    """The fastest change of the day, of all sensors, where one measured for an hour."""
    curves = ((m.sensor, by_clock(m.quarters, day.zone)) for m in day.measured)
    found = [
        (sensor, change)
        for sensor, curve in curves
        if (change := fastest([(hour, sensor.degrees(value)) for hour, value in curve]))
    ]
    if found:
        sensor, change = max(found, key=lambda pair: abs(pair[1].degrees))
        rule = (
            f"means of quarter hours of {sensor.name}, an hour apart, until {_clock(change.until)}"
        )
        yield Fact("fastest", "changed fastest", change.degrees, CHANGE, Basis(rule, MEASURED))


def _clock(hours: float) -> str:
    """An hour of the day as the clock shows it: 8.125 is `08:07`."""
    return f"{int(hours):02}:{int(hours % 1 * 60):02}"
