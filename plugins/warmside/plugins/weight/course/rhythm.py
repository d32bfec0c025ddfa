"""How often an animal is weighed, by its life stage."""

from __future__ import annotations

from collections.abc import Mapping
from datetime import date, timedelta

from msgspec import Struct

from warmside.api import Animal
from warmside.plugins.weight.course.ages import greatest_age, stage_on
from warmside.plugins.weight.course.checks import Stage


class LastWeighed(Struct, frozen=True):
    """An animal in care `since` a day, and when it was last weighed, by which event."""

    animal: Animal
    since: date
    day: date | None = None
    event: int | None = None
    cooled: bool = False


class Due(Struct, frozen=True):
    """When it is to be weighed, every so many days, and for whom that interval holds."""

    day: date
    every_days: int
    whom: str


def due(last: LastWeighed, settings: Mapping[str, float], on: date) -> Due | None:
    """When an animal is to be weighed, if that day has come."""
    hatched = last.animal.hatched
    stage = stage_on(last.animal.species.scientific, hatched, on)
    days, whom = interval(stage, greatest_age(hatched, on), last.cooled, settings)
    day = due_day(days, last.day, last.since)
    return Due(day, days, whom) if days and day <= on else None


def interval(
    stage: Stage, age_days: float | None, cooled: bool, settings: Mapping[str, float]
) -> tuple[int, str]:
    """Whole days between weighings, and for whom that holds; 0 days asks for none."""
    if cooled:
        name, whom = "cooling_every", "in winter cooling"
    elif age_days is not None and age_days <= settings["hatchling_until"]:
        name, whom = "hatchling_every", "as a hatchling"
    elif stage is Stage.JUVENILE:
        name, whom = "juvenile_every", "as a juvenile"
    else:
        name, whom = (
            "adult_every",
            "as an adult" if stage is Stage.ADULT else "as its age is unknown",
        )
    return round(settings[name]), whom


def due_day(days: int, last: date | None, since: date) -> date:
    """The day from which it is due: `days` after the last weighing, at once where there is none."""
    return since if last is None else last + timedelta(days=days)
