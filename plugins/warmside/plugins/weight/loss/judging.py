"""Loss of mass at the last weighing: how grave it is, and how much was lost.

A loss is judged against the animal's usual mass (medians, see `level`), not against one weighing;
one with a known reason against what that explains.
"""

from __future__ import annotations

from msgspec import Struct
from msgspec.structs import replace

from warmside.plugins.weight.course.level import below
from warmside.plugins.weight.course.limits import DEFAULTS, Limits
from warmside.plugins.weight.course.noise import noise_of
from warmside.plugins.weight.course.reasons import Reason, known_reason
from warmside.plugins.weight.course.series import Weighings
from warmside.plugins.weight.course.sign import Course, WeightSign
from warmside.plugins.weight.loss.fast_or_cooling import (
    costs_more,
    explained,
    is_over,
    left_by_fast,
)
from warmside.plugins.weight.loss.unexplained import against, by_peak
from warmside.plugins.weight.loss.usual_mass import level_before, since_laid, usual

_NOTICED = 0.15  # of the loss to be looked at: from there on it is weighed again soon


def loss_sign(course: Course, limits: Limits = DEFAULTS) -> WeightSign | None:
    """The gravest loss at the last weighing; None with fewer than two to compare."""
    those = since_laid(course)
    if len(those) < 2:
        return None
    reason = known_reason(course, those.days[-1])
    if reason is None:
        return _unexplained(those, course, limits)
    return explained(those, reason, limits) or _more_than_a_fast(those, course, reason, limits)


def _unexplained(those: Weighings, course: Course, limits: Limits) -> WeightSign | None:
    level = usual(those, course)
    if level is None:
        return by_peak(those, limits)
    return against(those, course, level, 1.0, limits)


def _more_than_a_fast(
    those: Weighings, course: Course, reason: Reason, limits: Limits
) -> WeightSign | None:
    """After a fast: what is lost beyond the most that it can have cost has no known reason."""
    level = usual(those, course)
    if level is None or not is_over(reason, those):
        return None
    left = left_by_fast(reason, those.days[-1])
    found = against(those, course, level, left, limits)
    if found is None:
        return None
    words = f"{100 * (1 - left):.0f} % are taken off that level for its fast"
    return replace(found, words=f"{found.words}; {words} of {reason.until - reason.since:.0f} days")


def lighter_unexplained(course: Course, limits: Limits = DEFAULTS) -> bool:
    """Whether the last weighing is low enough to weigh again soon: for no known reason, or lower
    than a fast that lasts can have made it."""
    those = since_laid(course)
    if len(those) < 2:
        return False
    reason, level = known_reason(course, those.days[-1]), usual(those, course)
    if reason is not None and not is_over(reason, those):
        return costs_more(those, reason)
    if level is None:
        return False
    return below(those, level * left_by_fast(reason, those.days[-1]), _NOTICED * limits.low_loss)


class Lost(Struct, frozen=True):
    """The part of its usual mass that an animal lost, 0 at least, with its 95 % range."""

    part: float
    low: float
    high: float
    events: tuple[int, ...]


def lost(course: Course) -> Lost | None:
    """The loss at the last weighing: in a fast or cooling of the mass before it, else of the usual.

    With too few weighings for that, of the heaviest; None with fewer than two to compare.
    """
    those = since_laid(course)
    if len(those) < 2:
        return None
    reason = known_reason(course, those.days[-1])
    if reason is not None:
        level, events = level_before(those, reason)
    else:
        level, events = usual(those, course) or max(those.masses_g), those.events[:-1]
    part, noise = 1 - those.masses_g[-1] / level, 2 * noise_of(those)
    low, high = (max(x, 0.0) for x in (part - noise, part + noise))
    return Lost(max(part, 0.0), low, high, (*events, those.events[-1]))
