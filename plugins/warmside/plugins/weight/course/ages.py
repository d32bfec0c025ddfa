"""Ages as far as the date of hatching is known."""

from __future__ import annotations

from datetime import date

from warmside.api import PartialDate
from warmside.plugins.weight.course.checks import Stage
from warmside.plugins.weight.course.life_history import stage_at

MOST_UNSURE_DAYS = 31
"""A date of hatching known less well gives no centile (our rule): a month old or six are worlds."""


def hatched_day(hatched: PartialDate | None) -> float | None:
    """The day of hatching, the middle of a month; None where it is not known to the month."""
    if hatched is None:
        return None
    first, last = hatched.earliest.toordinal(), hatched.latest.toordinal()
    return (first + last) / 2 if last - first <= MOST_UNSURE_DAYS else None


def stage_on(species: str, hatched: PartialDate | None, on: date) -> Stage:
    """The life stage on a day; unknown where the date of hatching leaves it open."""
    if hatched is None or hatched.earliest > on:
        return Stage.UNKNOWN
    least, greatest = (stage_at(species, float(age)) for age in hatched.age_days(on))
    return least if least is greatest else Stage.UNKNOWN


def greatest_age(hatched: PartialDate | None, on: date) -> float | None:
    """The greatest age in days that it can have; None where nothing is known."""
    return None if hatched is None else float(hatched.age_days(on)[1])
