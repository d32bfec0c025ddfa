"""Loss of mass: slow wasting, a tenth and more, and what a fast or winter cooling explains.

A loss is judged against the animal's usual mass (medians, see `level`), not against one weighing.
Without a known reason: to be looked at when two weighings running are together 5 % or more below,
or one is 7.5 % below, or after three falls running; for a vet at 10 %. The published 10 and 20 %
are marks from which a fasting animal needs support, not the first time to look.
"""

from __future__ import annotations

from itertools import pairwise

from msgspec import Struct
from msgspec.structs import replace

from warmside.api import Level
from warmside.plugins.weight.course.level import ROUNDING, below, height, years_level
from warmside.plugins.weight.course.limits import DEFAULTS, FASTING, OUR_RULE, SUPPORT, Limits
from warmside.plugins.weight.course.noise import noise_of
from warmside.plugins.weight.course.reasons import RECOVERY_DAYS, Reason, Why, known_reason
from warmside.plugins.weight.course.series import Weighings, day_text, gram_text, middle
from warmside.plugins.weight.course.sign import YOUNG, Course, Sign, WeightSign

LAID_DAYS = 180.0
"""So long after a clutch or litter only weighings since it are compared (our rule)."""
EGGS_DAYS = 60.0
"""So long before laying or birth a female weighs more by it (our rule)."""
_WITHOUT_FOOD = 0.183 / 168  # a part of the mass a day, as the ball pythons of FASTING
_MONTHS = 90.0  # days
_RISEN = 1.05
_FALLS = 3
_NOTICED = 0.2  # of the loss to be looked at: from there on it is weighed again soon
_LOW = 0.45  # of the loss to be looked at: both of two weighings that tell of one lie so low
_ONE = 1.5  # times the loss to be looked at: one weighing is enough to say so


def loss_sign(course: Course, limits: Limits = DEFAULTS) -> WeightSign | None:
    """The gravest loss at the last weighing; None with fewer than two to compare."""
    those = since_laid(course)
    if len(those) < 2:
        return None
    reason = known_reason(course, those.days[-1])
    if reason is None:
        return _unexplained(those, course, limits)
    return _explained(those, reason, limits) or _more_than_a_fast(those, course, reason, limits)


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


def lighter_unexplained(course: Course, limits: Limits = DEFAULTS) -> bool:
    """Whether the last weighing is low enough, for no known reason, to weigh again soon."""
    those = since_laid(course)
    if len(those) < 2:
        return False
    reason, level = known_reason(course, those.days[-1]), usual(those, course)
    if level is None or (reason is not None and not _is_over(reason, those)):
        return False
    return below(those, level * _left(reason, those.days[-1]), _NOTICED * limits.low_loss)


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


def usual(those: Weighings, course: Course) -> float | None:
    """The usual mass: of one that grows the height of the last months, else the year's median."""
    if _grows(those, course):
        return height(those, _MONTHS)
    return years_level(those)


def _grows(those: Weighings, course: Course) -> bool:
    """Whether it is young, or of late was well above the median of its year."""
    late, year = height(those, _MONTHS), years_level(those)
    return course.stage in YOUNG or (late or 0.0) > _RISEN * (year or 0.0)


def _unexplained(those: Weighings, course: Course, limits: Limits) -> WeightSign | None:
    level = usual(those, course)
    if level is None:
        return _by_peak(those, limits)
    return _against(those, course, level, 1.0, limits)


def _against(
    those: Weighings, course: Course, level: float, left: float, limits: Limits
) -> WeightSign | None:
    """Against its level and its height, of which a part is `left`."""
    high, level = left * max(height(those, limits.vet_days) or level, level), left * level
    fallen = _by_peak(those, limits) if _grows(those, course) else None  # it outruns its medians
    tenth = _tenth(those, high, limits) if below(those, high, limits.vet_loss) else None
    if tenth and fallen:
        return fallen if fallen.level is Level.ACT_NOW else tenth
    return tenth or fallen or _slow(those, level, limits)


def _more_than_a_fast(
    those: Weighings, course: Course, reason: Reason, limits: Limits
) -> WeightSign | None:
    """After a fast: what is lost beyond the most that it can have cost has no known reason."""
    level = usual(those, course)
    if level is None or not _is_over(reason, those):
        return None
    left = _left(reason, those.days[-1])
    found = _against(those, course, level, left, limits)
    if found is None:
        return None
    words = f"{100 * (1 - left):.0f} % are taken off that level for its fast"
    return replace(found, words=f"{found.words}; {words} of {reason.until - reason.since:.0f} days")


def _is_over(reason: Reason, those: Weighings) -> bool:
    """Whether it is a fast after which the animal eats again."""
    return reason.why is Why.FAST and not reason.lasts(those.days[-1])


def _left(reason: Reason | None, day: float) -> float:
    """The part of its usual mass that a fast may have left of it, made up little by little."""
    if reason is None:
        return 1.0
    part_on = min((day - reason.until) / RECOVERY_DAYS, 1.0)
    return 1 - _WITHOUT_FOOD * (reason.until - reason.since) * (1 - part_on)


def _slow(those: Weighings, level: float, limits: Limits) -> WeightSign | None:
    """Wasting: less than a tenth so far."""
    if _two_low(those, level, limits):
        two = f"two weighings running, together {100 * limits.low_loss:.0f} % or more"
        return _wasting(those, level, two, limits)
    if below(those, level, _ONE * limits.low_loss):
        return _wasting(those, level, "weigh again within days: one weighing so far", limits)
    if _falls(those, limits) and below(those, level, limits.low_loss):
        return _wasting(those, level, "three falls running,", limits)
    return None


def _two_low(those: Weighings, level: float, limits: Limits) -> bool:
    """Both of the last two low, and together as much below as one must be."""
    low = all(below(those, level, _LOW * limits.low_loss, i) for i in (-1, -2))
    mean = sum(those.masses_g[-2:]) / 2
    return low and level - mean >= (limits.low_loss - ROUNDING) * level


def _tenth(those: Weighings, level: float, limits: Limits) -> WeightSign:
    """A tenth and more below the height of half a year: a vet, once a second weighing says so."""
    confirmed = below(those, level, limits.low_loss, -2)
    change = those.masses_g[-1] / level - 1
    grave = confirmed or -change >= limits.chronic_loss - ROUNDING
    ask = "ask a reptile vet" if grave else "weigh again within days, and ask a reptile vet if so"
    words = f"{_usual_to(those, level, limits)}, and no reason is on record; {ask}"
    events = those.events[-2:] if confirmed else those.events[-1:]
    level_of = Level.ACT_NOW if grave else Level.LOOK_SOON
    return WeightSign(Sign.LOSS, level_of, words, events, OUR_RULE, change)


def _wasting(those: Weighings, level: float, what: str, limits: Limits) -> WeightSign:
    change = those.masses_g[-1] / level - 1
    words = (
        f"{_usual_to(those, level, limits)}: {what} below its level of the year, also if it eats; "
        "check food, warmth and droppings, and weigh weekly"
    )
    events = those.events[-4:] if what.startswith("three") else those.events[-2:]
    return WeightSign(Sign.WASTING, Level.LOOK_SOON, words, events, OUR_RULE, change)


def _by_peak(those: Weighings, limits: Limits) -> WeightSign | None:
    """Without a level to rest on: against the highest of the acute or chronic days."""
    for days, limit in (
        (limits.chronic_days, limits.chronic_loss),
        (limits.acute_days, limits.acute_loss),
    ):
        window = those.between(those.days[-1] - days, those.days[-1])
        peak = max(window.masses_g)
        change = window.masses_g[-1] / peak - 1
        if -change >= limit - ROUNDING and below(window, peak, limit):
            place = max(i for i, m in enumerate(window.masses_g) if m == peak)
            grave = -change >= limits.chronic_loss - ROUNDING
            words = (
                f"{gram_text(peak, limits.display)} on {day_text(window.days[place])} to "
                f"{_last(those, limits)}: lost {-100 * change:.0f} %; weigh again, check food, "
                "water and warmth, and ask a reptile vet"
            )
            level = Level.ACT_NOW if grave else Level.LOOK_SOON
            events = (window.events[place], window.events[-1])
            return WeightSign(Sign.LOSS, level, words, events, SUPPORT, change)
    return None


def _explained(those: Weighings, reason: Reason, limits: Limits) -> WeightSign | None:
    """A loss with a known reason: more than that costs, or at a mark where support is needed."""
    base, before = level_before(those, reason)
    change = those.masses_g[-1] / base - 1
    tenth, fifth = below(those, base, limits.acute_loss), below(those, base, limits.chronic_loss)
    if fifth or (tenth and _too_fast(those, base, reason)):
        level = Level.ACT_NOW
    elif reason.lasts(those.days[-1]) and (tenth or _too_fast(those, base, reason)):
        level = Level.LOOK_SOON
    else:
        return _still_falling(those, reason, limits)
    words = (
        f"{gram_text(base, limits.display)} before {reason.why} to {_last(those, limits)}: "
        f"{-100 * change:.0f} % less, {_mark(those, base, reason, limits)}; ask a reptile vet"
    )
    return WeightSign(Sign.LOSS, level, words, (*before, those.events[-1]), SUPPORT, change)


def level_before(those: Weighings, reason: Reason) -> tuple[float, tuple[int, ...]]:
    """The mass before a fast or cooling, with its weighings: the median of the last three."""
    before = those.between(reason.since - LAID_DAYS, reason.since + 7)[-3:]
    before = before if len(before) else those[:1]
    return middle(before.masses_g), before.events


def _too_fast(those: Weighings, base: float, reason: Reason) -> bool:
    """Whether the last two weighings lie below what fasting pythons lost at most by then."""
    if reason.why is not Why.FAST:
        return False
    return all(
        below(those, base, max(fasting_loss(those.days[i] - reason.since), 0.05), i)
        for i in (-1, -2)
    )


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
    return _wasting(those, low, f"it loses on though {reason.why} is over,", limits)


def _falls(those: Weighings, limits: Limits) -> bool:
    """Three falls running that together come to 5 % and to more than a step of the scale."""
    last = those.masses_g[-_FALLS - 1 :]
    if len(last) <= _FALLS or any(b >= a for a, b in pairwise(last)):
        return False
    fallen = last[0] - last[-1]
    return fallen >= limits.low_loss * last[0] and fallen > those.step_g


def _mark(those: Weighings, base: float, reason: Reason, limits: Limits) -> str:
    if _too_fast(those, base, reason):
        return f"more than fasting snakes lost by then ({FASTING.text})"
    limit = limits.chronic_loss if below(those, base, limits.chronic_loss) else limits.acute_loss
    return f"beyond {100 * limit:.0f} %, a mark from which support is called for"


def _usual_to(those: Weighings, level: float, limits: Limits) -> str:
    lost = 100 * (1 - those.masses_g[-1] / level)
    return (
        f"usually {gram_text(level, limits.display)}, {_last(those, limits)}: {lost:.0f} % lighter"
    )


def _last(those: Weighings, limits: Limits) -> str:
    return f"{gram_text(those.masses_g[-1], limits.display)} on {day_text(those.days[-1])}"
