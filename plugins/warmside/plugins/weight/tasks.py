"""The task to weigh an animal."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from datetime import date

from warmside.api import About, Basis, Mark, Source, Task, days_ago_words, every_days
from warmside.plugins.weight.course.limits import Limits
from warmside.plugins.weight.course.rhythm import LastWeighed, due

CUSTOM = Source("keepers' custom, or the keeper's setting", Mark.COMMON_PRACTICE)


def tasks(
    last: LastWeighed, settings: Mapping[str, float], limits: Limits, on: date
) -> Iterator[Task]:
    """The weighing of one animal, if it is due by its life stage, or sooner.

    One without a weighing on record is asked for each day: how late it is nobody knows.
    """
    found = due(last, settings, limits, on)
    if found is None:
        return
    ago = f"last {days_ago_words(last.day, on)}" if last.day else "none on record"
    events = (last.event,) if last.event else ()
    yield Task(
        "weigh",
        found.day,
        Basis(f"{every_days(found.every_days)} {found.whom}, {ago}", CUSTOM, events),
        About(last.animal.id),
        settles="weighed",
        every_days=found.every_days,
        by=None if last.day else max(found.day, on),
        keepers=True,
    )
