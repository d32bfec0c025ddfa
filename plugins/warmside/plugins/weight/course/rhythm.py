"""How often an animal is weighed, by its life stage."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from datetime import date, timedelta

from msgspec import Struct

from warmside.api import Animal, LifeStage, Staged
from warmside.plugins.weight.course.limits import Limits
from warmside.plugins.weight.course.reasons import known_reason
from warmside.plugins.weight.course.sign import YOUNG, Course
from warmside.plugins.weight.course.stall import grew_little, stall_sign
from warmside.plugins.weight.loss.judging import lighter_unexplained, loss_sign

_EVERY = {
    LifeStage.HATCHLING: "hatchling_every",
    LifeStage.JUVENILE: "juvenile_every",
    LifeStage.SUBADULT: "juvenile_every",
    LifeStage.ADULT: "adult_every",
}
_EARLY = ("lighter_every", "fasting_every")
FIRST_DAYS = {"snake": 150.0, "lizard": 90.0}
"""So long from hatching it is weighed as a hatchling, whatever it weighs: it grows by a tenth in a
fortnight, and a stall shows within a month (common practice, no source)."""
_ARTICLE = {stage: "an" if stage is LifeStage.ADULT else "a" for stage in LifeStage}


class LastWeighed(Struct, frozen=True):
    """An animal in care `since` a day, and when it was last weighed, by which event.

    `course` is what its weighings say, where it was weighed within a year or so.
    """

    animal: Animal
    since: date
    staged: Staged
    day: date | None = None
    event: int | None = None
    cooled: bool = False
    course: Course | None = None


class Due(Struct, frozen=True):
    """When it is to be weighed, every so many days, and for whom that interval holds."""

    day: date
    every_days: int
    whom: str


def due(last: LastWeighed, settings: Mapping[str, float], limits: Limits, on: date) -> Due | None:
    """When an animal is to be weighed, if that day has come."""
    days, whom = interval(last.staged.possible, last.cooled, settings)
    if _is_new(last.staged) and days > settings["hatchling_every"] > 0 and not last.cooled:
        days, whom = round(settings["hatchling_every"]), "in its first months"
    if last.day and (on - last.day).days < min(days, *(settings[n] for n in _EARLY)):
        return None
    sooner = _sooner(last.course, settings, limits, on) if last.course else None
    if sooner and days and sooner[0] < days:
        days, whom = sooner
    day = due_day(days, last.day, last.since)
    return Due(day, days, whom) if days and day <= on else None


def interval(
    possible: Sequence[LifeStage], cooled: bool, settings: Mapping[str, float]
) -> tuple[int, str]:
    """Whole days between weighings, and for whom that holds; 0 days asks for none.

    Where several stages are possible the interval is that of the oldest: nobody is asked too often.
    """
    oldest = possible[-1]
    if cooled:
        name, whom = "cooling_every", "in winter cooling"
    elif len(possible) > 1:
        name, whom = _EVERY[oldest], "as its life stage is not known"
    else:
        name, whom = _EVERY[oldest], f"as {_ARTICLE[oldest]} {oldest}"
    return round(settings[name]), whom


def _is_new(staged: Staged) -> bool:
    """Whether it is surely in its first months, and no adult already."""
    greatest = staged.life.age[1]
    first = FIRST_DAYS.get(staged.life.form or "", 0.0)
    young = staged.stage in (*YOUNG, LifeStage.SUBADULT)
    return young and greatest is not None and greatest < first


def _sooner(
    course: Course, settings: Mapping[str, float], limits: Limits, on: date
) -> tuple[int, str] | None:
    """Days until the next weighing where the last one asks for an early one, and why."""
    if len(course.weighings) < 2:
        return None
    if loss_sign(course, limits) or lighter_unexplained(course, limits):
        return round(settings["lighter_every"]), "as it weighed less than it usually does"
    if grew_little(course) or stall_sign(course, limits):
        return round(settings["lighter_every"]), "as it hardly grew"
    for day, since in ((float(on.toordinal()), "during"), (course.weighings.days[-1], "after")):
        reason = known_reason(course, day)
        if reason and reason.lasts(day):
            return round(settings["fasting_every"]), f"{since} {reason.why}"
    return None


def due_day(days: int, last: date | None, since: date) -> date:
    """The day from which it is due: `days` after the last weighing, at once where there is none."""
    return since if last is None else last + timedelta(days=days)
