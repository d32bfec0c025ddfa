"""How often an animal is weighed, by its life stage."""

from __future__ import annotations

from collections.abc import Mapping
from datetime import date, timedelta

from warmside.plugins.weight.checks import Stage


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
