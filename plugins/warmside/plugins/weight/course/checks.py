"""What an animal's weighings say: loss, stalled or fast growth, and falls that were expected.

Signs are for the keeper to look at, never a diagnosis. Each names the weighings it rests on. Only
the last year is walked, so that ten years cost what one costs.
"""

from __future__ import annotations

from collections.abc import Sequence
from enum import StrEnum

from msgspec import Struct
from msgspec.structs import replace

from warmside.api import Level, LifeStage, Source
from warmside.plugins.weight.course.limits import (
    CLUTCH,
    CLUTCH_DROP,
    CUSTOM,
    DEFAULTS,
    SHED_DROP,
    SUPPORT,
    Limits,
)
from warmside.plugins.weight.course.series import NONE, Weighings, day_text, gram_text

ROUNDING = 1e-12  # 1000 g to 900 g is a loss of 10 %, not of 9.999999999999998 %
GROWING = (LifeStage.HATCHLING, LifeStage.JUVENILE)
"""Stages that gain from month to month; a subadult may pause (common practice, no source)."""


class Sign(StrEnum):
    """What a check found; the value is the finding's code."""

    ACUTE_LOSS = "weight.acute-loss"
    CHRONIC_LOSS = "weight.chronic-loss"
    CENTILE_LINES = "weight.centile-lines"
    OFF_CHANNEL = "weight.off-channel"
    STALLED = "weight.stalled"
    FAST_GAIN = "weight.fast-gain"
    AFTER_LAYING = "weight.after-laying"
    AFTER_SHED = "weight.after-shed"
    COOLING = "weight.cooling"


class WeightSign(Struct, frozen=True):
    """A sign with its level, its words, the weighings (event ids) and the rule's source.

    `change` is a part of body mass (negative for a loss), or a change of z for the centile signs.
    """

    sign: Sign
    level: Level
    words: str
    events: tuple[int, ...]
    source: Source
    change: float


class Course(Struct, frozen=True):
    """What is known of an animal; days as in `series`, lists in order of day.

    `weighings` are without suspected slips and less undigested meals. `laid` are days of clutches
    and litters, `cooled` pairs of begin and end (infinite while it lasts), `gravid` the same.
    """

    weighings: Weighings = NONE
    stage: LifeStage | None = None
    laid: Sequence[float] = ()
    sheds: Sequence[float] = ()
    cooled: Sequence[tuple[float, float]] = ()
    gravid: Sequence[tuple[float, float]] = ()


def signs(course: Course, limits: Limits = DEFAULTS) -> tuple[WeightSign, ...]:
    """All signs at the latest weighing that need no reference; none with fewer than two.

    A fall that was expected is told only where there is no loss to tell.
    """
    if len(course.weighings) < 2:
        return ()
    loss = loss_sign(course, limits)
    fall = None if loss else expected_fall(course, limits)
    found = (loss, fall, stall_sign(course, limits), gain_sign(course, limits))
    return tuple(one for one in found if one is not None)


def loss_sign(course: Course, limits: Limits = DEFAULTS) -> WeightSign | None:
    """Loss from the year's peak (chronic) or the recent one (acute), the greater of the two.

    Peaks before the last clutch or litter do not count once a later weighing is there.
    """
    chronic = _loss(course, limits.chronic_days, limits.chronic_loss, Sign.CHRONIC_LOSS, limits)
    acute = _loss(course, limits.acute_days, limits.acute_loss, Sign.ACUTE_LOSS, limits)
    if acute and chronic and acute.change <= chronic.change:  # the year's peak is the recent one
        return replace(acute, level=Level.ACT_NOW)
    return chronic or acute


def stall_sign(course: Course, limits: Limits = DEFAULTS) -> WeightSign | None:
    """A juvenile that has hardly gained for weeks; not judged across winter cooling.

    Needs a weighing at least `stall_days` before the last one and one between; a loss beyond the
    acute limit is left to `loss_sign`.
    """
    those = course.weighings
    first = those.days[-1] - limits.stall_days
    window = those[len(those.between(0, first)) - 1 :] if those.days[0] <= first else NONE
    if course.stage not in GROWING or len(window) < 3:
        return None
    start = window.masses_g[0]
    gain, change = max(window.masses_g[1:]) / start - 1, window.masses_g[-1] / start - 1
    if gain >= limits.stall_gain or -change >= limits.acute_loss - ROUNDING:
        return None
    if _touches(course.cooled, window.days[0], window.days[-1]):
        return None
    words = (
        f"{_from_to(window, 0, limits)}: hardly grown in {window.days[-1] - window.days[0]:.0f} "
        "days, and it is a juvenile; check food, warmth and droppings"
    )
    return WeightSign(Sign.STALLED, Level.LOOK_SOON, words, window.events, CUSTOM, change)


def gain_sign(course: Course, limits: Limits = DEFAULTS) -> WeightSign | None:
    """An adult that gains fast beyond what it weighed in the year before.

    Not judged while it is known to be gravid or across winter cooling.
    """
    if course.stage is not LifeStage.ADULT:
        return None
    window = _since_laid(course, limits.fast_days)
    low = _where(window, min(window.masses_g))
    change = window.masses_g[-1] / window.masses_g[low] - 1
    start, end = window.days[low], window.days[-1]
    if change < limits.fast_gain - ROUNDING or _touches(
        (*course.gravid, *course.cooled), start, end
    ):
        return None
    earlier = course.weighings.between(end - limits.chronic_days, start)
    if window.masses_g[-1] <= max(earlier.masses_g):
        return None
    words = (
        f"{_from_to(window, low, limits)}: {100 * change:.0f} % more, fast for an adult; eggs, "
        "water or food beyond its need, so check which"
    )
    events = (window.events[low], window.events[-1])
    return WeightSign(Sign.FAST_GAIN, Level.NOTE, words, events, CUSTOM, change)


def expected_fall(course: Course, limits: Limits = DEFAULTS) -> WeightSign | None:
    """The last fall, where a clutch, a litter, a shed or winter cooling lies in it.

    A note while it is within what the cause explains; look soon where a clutch took more.
    """
    pair = course.weighings[-2:]
    change = pair.masses_g[1] / pair.masses_g[0] - 1
    if change < 0 and _any_within(course.laid, pair):
        return _after_laying(pair, change, limits)
    if -SHED_DROP[1] <= change <= -SHED_DROP[0] and _any_within(course.sheds, pair):
        words = f"{_from_to(pair, 0, limits)}: {-100 * change:.0f} % less, as expected after a shed"
        return WeightSign(Sign.AFTER_SHED, Level.NOTE, words, pair.events, CUSTOM, change)
    return _in_cooling(course, limits)


def _after_laying(pair: Weighings, change: float, limits: Limits) -> WeightSign:
    much = -change > CLUTCH_DROP
    words = (
        f"{_from_to(pair, 0, limits)}: {-100 * change:.0f} % less after laying or giving birth, "
        + (
            f"more than the {100 * CLUTCH_DROP:.0f} % that a clutch may take; ask a reptile vet"
            if much
            else "as expected"
        )
    )
    level = Level.LOOK_SOON if much else Level.NOTE
    return WeightSign(Sign.AFTER_LAYING, level, words, pair.events, CLUTCH, change)


def _in_cooling(course: Course, limits: Limits) -> WeightSign | None:
    those = course.weighings
    begin = max((b for b, end in course.cooled if b <= those.days[-1] <= end), default=None)
    before = NONE if begin is None else those.between(0, begin)[-1:]
    if not len(before):
        return None
    window = those.between(before.days[0], those.days[-1])
    change = window.masses_g[-1] / window.masses_g[0] - 1
    if not limits.acute_loss / 2 - ROUNDING <= -change < limits.acute_loss - ROUNDING:
        return None
    words = (
        f"{_from_to(window, 0, limits)}: {-100 * change:.0f} % less in winter cooling; some loss "
        f"is expected, beyond {100 * limits.acute_loss:.0f} % ask a reptile vet"
    )
    events = (window.events[0], window.events[-1])
    return WeightSign(Sign.COOLING, Level.NOTE, words, events, CUSTOM, change)


def _any_within(days: Sequence[float], pair: Weighings) -> bool:
    return any(pair.days[0] <= day <= pair.days[1] for day in reversed(days))


def _loss(
    course: Course, days: float, limit: float, sign: Sign, limits: Limits
) -> WeightSign | None:
    window = _since_laid(course, days)
    peak = _where(window, max(window.masses_g))
    change = window.masses_g[-1] / window.masses_g[peak] - 1
    if -change < limit - ROUNDING:
        return None
    cooled = _touches(course.cooled, window.days[peak], window.days[-1])
    words = (
        f"{_from_to(window, peak, limits)}: lost {-100 * change:.0f} %"
        f"{', more than winter cooling should cost' if cooled else ''}; "
        "weigh again, check food, water and warmth, and ask a reptile vet"
    )
    level = Level.ACT_NOW if sign is Sign.CHRONIC_LOSS else Level.LOOK_SOON
    events = (window.events[peak], window.events[-1])
    return WeightSign(sign, level, words, events, SUPPORT, change)


def _since_laid(course: Course, days: float) -> Weighings:
    """The weighings of the last days, or since a clutch or litter in them."""
    those = course.weighings
    first = those.days[-1] - days
    laid = max((day for day in course.laid if first <= day < those.days[-1]), default=first)
    return those.between(laid, those.days[-1])


def _touches(spans: Sequence[tuple[float, float]], first: float, last: float) -> bool:
    return any(begin <= last and end >= first for begin, end in spans)


def _where(window: Weighings, mass: float) -> int:
    """The latest weighing with that mass."""
    return max(i for i, m in enumerate(window.masses_g) if m == mass)


def _from_to(window: Weighings, start: int, limits: Limits) -> str:
    return (
        f"{gram_text(window.masses_g[start], limits.display)} on {day_text(window.days[start])} to "
        f"{gram_text(window.masses_g[-1], limits.display)} on {day_text(window.days[-1])}"
    )
