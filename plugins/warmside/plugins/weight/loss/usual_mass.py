"""The mass that an animal is held against: its usual one, and that before a fast or cooling."""

from __future__ import annotations

from warmside.plugins.weight.course.level import height
from warmside.plugins.weight.course.reasons import Reason
from warmside.plugins.weight.course.series import Weighings, middle
from warmside.plugins.weight.course.sign import YOUNG, Course

LAID_DAYS = 180.0
"""So long after a clutch or litter only weighings since it are compared (our rule)."""
EGGS_DAYS = 60.0
"""So long before laying or birth a female weighs more by it (our rule)."""
_MONTHS = 90.0  # days
_RISEN = 1.05


def since_laid(course: Course) -> Weighings:
    """The weighings since the last clutch or litter, if that was within LAID_DAYS; of earlier ones
    those with eggs are left out."""
    those = course.weighings
    if not len(those) or not course.laid:
        return those
    first = those.days[-1] - LAID_DAYS
    laid = [d for d in course.laid if d <= those.days[-1]]
    rows = zip(those.events, those.days, strict=True)
    with_eggs = [e for e, day in rows if any(0 < d - day < EGGS_DAYS for d in laid)]
    since = max((d for d in laid if d >= first), default=0.0)
    return those.without(with_eggs).between(since, those.days[-1])


def usual(those: Weighings, course: Course) -> float | None:
    """The usual mass: of one that grows the height of the last months, else the year's median."""
    if grows(those, course):
        return height(those, _MONTHS)
    return those.years_middle_g


def grows(those: Weighings, course: Course) -> bool:
    """Whether it is young, or of late was well above the median of its year."""
    late, year = height(those, _MONTHS), those.years_middle_g
    return course.stage in YOUNG or (late or 0.0) > _RISEN * (year or 0.0)


def level_before(those: Weighings, reason: Reason) -> tuple[float, tuple[int, ...]]:
    """The mass before a fast or cooling, with its weighings: the median of the last three."""
    before = those.between(reason.since - LAID_DAYS, reason.since + 7)[-3:]
    before = before if len(before) else those[:1]
    return middle(before.masses_g), before.events
