"""An enclosure's day as the report and the command show it."""

from __future__ import annotations

from warmside.api import Fact, Part, Unit, Words
from warmside_climatelog.climate.day_here import DayHere
from warmside_climatelog.telling.curves import day_curve
from warmside_climatelog.telling.plan import plan

NO_PLAN = "for a plan, note how wide and deep it is: warmside enclosure change {} --width --depth"


def day_parts(day: DayHere) -> tuple[Part, ...]:
    """The limit with its basis, the curve over the hours, the plan."""
    most = Fact("most", "at most", day.most.value, Unit.TEMPERATURE, day.most.basis)
    return (most, day_curve(day), plan(day) or Words(NO_PLAN.format(day.place.code)))
