"""Gain of an adult: fast within weeks, or slow over a year; said once, when it is first seen."""

from __future__ import annotations

from msgspec.structs import replace

from warmside.api import Level, LifeStage
from warmside.plugins.weight.course.level import ROUNDING, height
from warmside.plugins.weight.course.limits import CUSTOM, DEFAULTS, Limits
from warmside.plugins.weight.course.reasons import known_reason
from warmside.plugins.weight.course.series import Weighings, day_text, gram_text, middle
from warmside.plugins.weight.course.sign import Course, Sign, WeightSign
from warmside.plugins.weight.loss.usual_mass import since_laid

ONCE_DAYS = 14.0
"""A note stands for so long after the weighing that first gave it."""
_YEAR, _ABOUT = 365.0, 75.0
_GREW = 1.06


def gain_sign(course: Course, day: float, limits: Limits = DEFAULTS) -> WeightSign | None:
    """A gain that the last weighing is the first to show, for ONCE_DAYS after it."""
    if course.stage is not LifeStage.ADULT or day - course.weighings.days[-1] > ONCE_DAYS:
        return None
    found = _gain(course, limits)
    earlier = replace(course, weighings=course.weighings[:-1])
    if found is None or (len(earlier.weighings) > 1 and _gain(earlier, limits)):
        return None
    return found


def _gain(course: Course, limits: Limits) -> WeightSign | None:
    last = course.weighings.days[-1]
    spans = (*course.gravid, *course.cooled)
    if any(begin <= last and end >= last - limits.fast_days for begin, end in spans):
        return None
    if known_reason(course, last) is not None:
        return None
    return _fast(course, limits) or _of_a_year(course, limits)


def _fast(course: Course, limits: Limits) -> WeightSign | None:
    """Within weeks, beyond what it weighed in the year before."""
    those = since_laid(course)
    window = those.between(those.days[-1] - limits.fast_days, those.days[-1])
    low = min(window.masses_g)
    change = window.masses_g[-1] / low - 1
    place = max(i for i, m in enumerate(window.masses_g) if m == low)
    if change < limits.fast_gain - ROUNDING or not _beyond(course, place, window):
        return None
    words = (
        f"{_told(low, window.days[place], limits)} to "
        f"{_told(window.masses_g[-1], window.days[-1], limits)}: {100 * change:.0f} % more, fast "
        "for an adult; eggs, water or food beyond its need, so check which"
    )
    events = (window.events[place], window.events[-1])
    return WeightSign(Sign.FAST_GAIN, Level.NOTE, words, events, CUSTOM, change)


def _beyond(course: Course, place: int, window: Weighings) -> bool:
    earlier = course.weighings.between(window.days[-1] - _YEAR, window.days[place])
    risen = window.masses_g[-1] - window.masses_g[place]
    return window.masses_g[-1] > max(earlier.masses_g) and risen > window.step_g


def _of_a_year(course: Course, limits: Limits) -> WeightSign | None:
    """Slowly: the median of the last three against that of the same season a year before."""
    those = course.weighings
    then = those.days[-1] - _YEAR
    before, now = those.between(then - _ABOUT, then + _ABOUT), those[-3:]
    if len(before) < 3 or _grew(before) or any(then - _ABOUT <= d for d in course.laid):
        return None
    was, is_ = middle(before.masses_g), middle(now.masses_g)
    change = is_ / was - 1
    high = height(those, _YEAR) or 0.0
    if change < limits.years_gain - ROUNDING or is_ - was <= those.step_g:
        return None
    if is_ < 0.97 * high:
        return None
    words = (
        f"about {gram_text(was, limits.display)} a year ago, about "
        f"{gram_text(is_, limits.display)} now: {100 * change:.0f} % more in a year, and it is "
        "grown; look at its body condition before it is fed as until now"
    )
    events = (*before.events, *now.events)
    return WeightSign(Sign.YEARS_GAIN, Level.NOTE, words, events, CUSTOM, change)


def _grew(then: Weighings) -> bool:
    """Whether it was still growing at that time."""
    return middle(then.masses_g[-3:]) > _GREW * middle(then.masses_g[:3])


def _told(mass: float, day: float, limits: Limits) -> str:
    return f"{gram_text(mass, limits.display)} on {day_text(day)}"
