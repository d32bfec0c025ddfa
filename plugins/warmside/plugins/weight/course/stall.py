"""Stalled growth: below what the animal's own growth led to expect; pure computation.

Its own growth before is fitted (see `local_fit`); growth has stalled where the last two weighings
lie below the 95 % range of it and less than a third of the expected gain has come.
"""

from __future__ import annotations

from math import log

from warmside.api import Level, LifeStage
from warmside.plugins.weight.course.limits import DEFAULTS, OUR_RULE, Limits
from warmside.plugins.weight.course.local_fit import fitted
from warmside.plugins.weight.course.series import Weighings, day_text, gram_text
from warmside.plugins.weight.course.sign import YOUNG, Course, Sign, WeightSign

LEAST_BEFORE = 4
"""So many weighings make the growth before."""
_SHARE = 0.33  # less than that of the expected gain
_LEAST_GAIN = 0.05  # growth of less than 5 % in the time is too slow to miss
_LEAST_DAYS = 18.0  # hatchlings grow by a tenth in so long
_USUAL_DAYS = 28.0
_MOST_DAYS = 180.0
_GROWING = 1.05  # a gain of more than 5 % since is looked at no further
_SPREADS = 1.4  # both of two weighings so far below
_NOTICED = 1.4


def stall_sign(course: Course, limits: Limits = DEFAULTS) -> WeightSign | None:
    """That growth has stalled, over the shortest time that shows it; not across winter cooling."""
    if course.stage not in (*YOUNG, LifeStage.SUBADULT) or len(course.weighings) < 3:
        return None
    return _by_own_growth(course, limits) or _by_plain_rule(course, limits)


def _by_own_growth(course: Course, limits: Limits) -> WeightSign | None:
    those = course.weighings
    least = _LEAST_DAYS if course.stage is LifeStage.HATCHLING else _USUAL_DAYS
    for start in range(len(those) - 3, LEAST_BEFORE - 2, -1):
        days = those.days[-1] - those.days[start]
        if days > _MOST_DAYS:
            return None
        small = max(those.masses_g[-2:]) <= _GROWING * those.masses_g[start]
        judged = days >= least and small and not _cooled(course, start)
        missing = _missing(those, start) if judged else None
        if missing is not None:
            return _told(those, start, missing, limits)
    return None


def grew_little(course: Course) -> bool:
    """Whether the last weighing of a young one is so low that it is weighed again soon."""
    those = course.weighings
    if course.stage not in YOUNG or len(those) <= LEAST_BEFORE:
        return False
    mean, spread = fitted(those[:-1]).at(those.days[-1] - those.days[-2])
    return log(those.masses_g[-1]) < mean - _NOTICED * spread


def _missing(those: Weighings, start: int) -> float | None:
    """The gain that did not come, as a part of the mass; None where growth has not stalled."""
    before = fitted(those[: start + 1])
    for place in (-1, -2):
        ahead = those.days[place] - those.days[start]
        mean, spread = before.at(ahead)
        mass = log(those.masses_g[place])
        if mass > mean - _SPREADS * spread or mass - before.level > _SHARE * before.rise(ahead):
            return None
    expected = before.rise(those.days[-1] - those.days[start])
    return expected if expected >= _LEAST_GAIN else None


def _told(those: Weighings, start: int, expected: float, limits: Limits) -> WeightSign:
    change = those.masses_g[-1] / those.masses_g[start] - 1
    days = those.days[-1] - those.days[start]
    words = (
        f"{gram_text(those.masses_g[start], limits.display)} on {day_text(those.days[start])} to "
        f"{gram_text(those.masses_g[-1], limits.display)} on {day_text(those.days[-1])}: "
        f"{100 * change:+.0f} % in {days:.0f} days, where its own growth before led to expect "
        f"{100 * expected:+.0f} %; check food, warmth and droppings, and weigh weekly"
    )
    events = those.events[start:]
    return WeightSign(Sign.STALLED, Level.LOOK_SOON, words, events, OUR_RULE, change)


def _by_plain_rule(course: Course, limits: Limits) -> WeightSign | None:
    """Where its own growth says nothing: two weighings running that gained hardly anything."""
    if course.stage not in YOUNG:
        return None
    those = course.weighings
    days = limits.hatchling_stall_days if course.stage is LifeStage.HATCHLING else limits.stall_days
    first = those.days[-1] - days
    start = len(those.between(0, first)) - 1
    if start < 0 or len(those) - start < 3 or _cooled(course, start):
        return None
    at_start = those.masses_g[start]
    if max(those.masses_g[-2:]) >= at_start * (1 + limits.stall_gain):
        return None
    change = those.masses_g[-1] / at_start - 1
    words = (
        f"{gram_text(at_start, limits.display)} on {day_text(those.days[start])} to "
        f"{gram_text(those.masses_g[-1], limits.display)} on {day_text(those.days[-1])}: hardly "
        f"grown in {those.days[-1] - those.days[start]:.0f} days, and it is a {course.stage}; "
        "check food, warmth and droppings"
    )
    events = those.events[start:]
    return WeightSign(Sign.STALLED, Level.LOOK_SOON, words, events, OUR_RULE, change)


def _cooled(course: Course, start: int) -> bool:
    first, last = course.weighings.days[start], course.weighings.days[-1]
    return any(begin <= last and end >= first for begin, end in course.cooled)
