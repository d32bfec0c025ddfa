"""Loss with a known reason: more than a fast or winter cooling costs, or a mark for support.

The published 10 and 20 % are marks from which a fasting animal needs support, not the first time to
look.
"""

from __future__ import annotations

from warmside.api import Level
from warmside.plugins.weight.course.level import below
from warmside.plugins.weight.course.limits import FASTING, SUPPORT, Limits
from warmside.plugins.weight.course.reasons import RECOVERY_DAYS, Reason, Why
from warmside.plugins.weight.course.series import Weighings, gram_text
from warmside.plugins.weight.course.sign import Sign, WeightSign
from warmside.plugins.weight.loss.unexplained import last_words, wasting
from warmside.plugins.weight.loss.usual_mass import level_before

_WITHOUT_FOOD = 0.183 / 168  # a part of the mass a day, as the ball pythons of FASTING


def explained(those: Weighings, reason: Reason, limits: Limits) -> WeightSign | None:
    """A loss with a known reason: more than that costs, or at a mark where support is needed."""
    base, before = level_before(those, reason)
    change = those.masses_g[-1] / base - 1
    tenth, fifth = below(those, base, limits.acute_loss), below(those, base, limits.chronic_loss)
    if fifth or (tenth and too_fast(those, base, reason)):
        level = Level.ACT_NOW
    elif reason.lasts(those.days[-1]) and (tenth or too_fast(those, base, reason)):
        level = Level.LOOK_SOON
    else:
        return _still_falling(those, reason, limits)
    words = (
        f"{gram_text(base, limits.display)} before {reason.why} to {last_words(those, limits)}: "
        f"{-100 * change:.0f} % less, {_mark(those, base, reason, limits)}; ask a reptile vet"
    )
    return WeightSign(Sign.LOSS, level, words, (*before, those.events[-1]), SUPPORT, change)


def too_fast(those: Weighings, base: float, reason: Reason) -> bool:
    """Whether the last two weighings lie below what fasting pythons lost at most by then."""
    if reason.why is not Why.FAST:
        return False
    return all(
        below(those, base, max(fasting_loss(those.days[i] - reason.since), 0.05), i)
        for i in (-1, -2)
    )


def costs_more(those: Weighings, reason: Reason) -> bool:
    """Whether the last weighing alone lies below what fasting pythons lost by then."""
    base, _ = level_before(those, reason)
    days = those.days[-1] - reason.since
    return reason.why is Why.FAST and below(those, base, fasting_loss(days))


def fasting_loss(days: float) -> float:
    """The part of its mass that a resting snake loses without food: 2.5 % of gut content, then
    0.76 % a week as the ball pythons of FASTING."""
    return 0.025 + _WITHOUT_FOOD * max(days, 0.0)


def _still_falling(those: Weighings, reason: Reason, limits: Limits) -> WeightSign | None:
    """After the end of a fast or cooling: two weighings running below the lowest of it."""
    if reason.lasts(those.days[-1]):
        return None
    within = those.between(reason.since, reason.until + 3)
    if not len(within) or those.days[-2] <= within.days[-1]:
        return None
    low = min(within.masses_g)
    if not all(below(those, low, limits.low_loss, i) for i in (-1, -2)):
        return None
    return wasting(those, low, f"it loses on though {reason.why} is over,", limits)


def _mark(those: Weighings, base: float, reason: Reason, limits: Limits) -> str:
    if too_fast(those, base, reason):
        return f"more than fasting snakes lost by then ({FASTING.text})"
    limit = limits.chronic_loss if below(those, base, limits.chronic_loss) else limits.acute_loss
    return f"beyond {100 * limit:.0f} %, a mark from which support is called for"


def is_over(reason: Reason, those: Weighings) -> bool:
    """Whether it is a fast after which the animal eats again."""
    return reason.why is Why.FAST and not reason.lasts(those.days[-1])


def left_by_fast(reason: Reason | None, day: float) -> float:
    """The part of its usual mass that a fast may have left of it, made up little by little."""
    if reason is None:
        return 1.0
    part_on = min((day - reason.until) / RECOVERY_DAYS, 1.0)
    return 1 - _WITHOUT_FOOD * (reason.until - reason.since) * (1 - part_on)
