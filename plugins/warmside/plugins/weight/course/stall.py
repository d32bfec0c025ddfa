"""Stalled growth: a pace since some weighing that is well below the animal's own before it.

The paces are fitted for each weighing from which it may have slowed (see `pace`); of all, that
counts at which the evidence is strongest. How strong it must be was set on simulated herds, so that
nine of ten that stop are told of in time and hardly one that grows. It is least where much growth
was to be expected, and for a hatchling, which has few reserves and is weighed for weeks only; a
juvenile, weighed for most of a year, gives chance more occasions. A subadult may pause: only what
is slower than a third of its pace counts, and that soon.
"""

from __future__ import annotations

from collections.abc import Iterator

from msgspec.structs import replace

from warmside.api import Level, LifeStage
from warmside.plugins.weight.course.limits import DEFAULTS, OUR_RULE, Limits
from warmside.plugins.weight.course.pace import Paces, paces
from warmside.plugins.weight.course.series import Weighings, day_text, gram_text
from warmside.plugins.weight.course.sign import YOUNG, Course, Sign, WeightSign

LEAST_BEFORE = 2
"""So many weighings make the pace before."""
_SINCE = 2
_SHARE, _SUBADULTS_SHARE = 0.5, 0.35  # of the pace before; slower than that is stalled
_LEAST_GAIN, _SUBADULTS_GAIN = 0.05, 0.10  # where less was to be expected nothing is missed
_LEAST_DAYS = {LifeStage.HATCHLING: 10.0, LifeStage.JUVENILE: 12.0, LifeStage.SUBADULT: 20.0}
_MOST_DAYS = 90.0
_SURE = {LifeStage.HATCHLING: 0.25, LifeStage.JUVENILE: 1.0, LifeStage.SUBADULT: 0.5}
_SURER, _MUCH = 0.6, 0.2  # so many standard deviations more where less than _MUCH is due
_ATE_MEALS, _ATE_DAYS = 3, 21.0  # a hatchling that ate so often shows in so many days that it grows
_NOTICED = 1.6  # so many fewer are enough to weigh it again soon


def stall_sign(course: Course, limits: Limits = DEFAULTS) -> WeightSign | None:
    """That growth has stalled; not across winter cooling."""
    found = max(_slower(course, _SINCE), default=None)
    if found is not None and found[0] > 0:
        return _told(course.weighings, found[1], found[2], limits)
    return _by_plain_rule(course, limits)


def grew_little(course: Course) -> bool:
    """Whether the last weighing of a growing one is so low that it is weighed again soon."""
    return any(sure > -_NOTICED for sure, *_ in _slower(course, 1))


def _slower(course: Course, least: int) -> Iterator[tuple[float, int, float]]:
    """For each weighing with `least` or more since it: by how much the evidence exceeds what is
    asked for, in standard deviations; its position; and the gain that was to be expected."""
    those = course.weighings
    if course.stage not in _LEAST_DAYS:
        return
    for start in range(len(those) - 1 - least, LEAST_BEFORE - 2, -1):
        days = those.days[-1] - those.days[start]
        if days > _MOST_DAYS or _cooled(course, start):
            return
        if days >= _LEAST_DAYS[course.stage]:
            held = _not_below(those, start)
            yield from _evidence(course, start, paces(held, start, course.slowing))


def _not_below(those: Weighings, start: int) -> Weighings:
    """With the last weighing no lower than those before: how far it fell is a loss, no stall."""
    least = min(those.masses_g[start:-1])
    return replace(those, masses_g=(*those.masses_g[:-1], max(those.masses_g[-1], least)))


def _evidence(course: Course, start: int, found: Paces) -> Iterator[tuple[float, int, float]]:
    assert course.stage is not None
    subadult = course.stage is LifeStage.SUBADULT
    if found.expected < (_SUBADULTS_GAIN if subadult else _LEAST_GAIN):
        return
    asked = _SURE[course.stage] + _SURER * max(0.0, 1 - found.expected / _MUCH)
    share = _SUBADULTS_SHARE if subadult else _SHARE
    yield found.short_of(share) - asked, start, found.expected


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
    if course.stage not in YOUNG or len(course.weighings) < 3:
        return None
    those = course.weighings
    first = those.days[-1] - _plain_days(course, limits)
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


def _plain_days(course: Course, limits: Limits) -> float:
    """Over how many days its gain is looked at; of a hatchling fewer where it ate all the while."""
    if course.stage is not LifeStage.HATCHLING:
        return limits.stall_days
    last = course.weighings.days[-1]
    ate = sum(last - _ATE_DAYS <= day <= last for day in course.meals)
    most = limits.hatchling_stall_days
    return min(most, _ATE_DAYS) if ate >= _ATE_MEALS else most


def _cooled(course: Course, start: int) -> bool:
    first, last = course.weighings.days[start], course.weighings.days[-1]
    return any(begin <= last and end >= first for begin, end in course.cooled)
