"""What an animal's weighings say: loss, stalled or fast growth, and falls that were expected.

Signs are for the keeper to look at, never a diagnosis. Each names the weighings it rests on. Only
the last year is walked, so that ten years cost what one costs.
"""

from __future__ import annotations

from collections.abc import Sequence

from warmside.api import Level
from warmside.plugins.weight.course.gain import ONCE_DAYS, gain_sign
from warmside.plugins.weight.course.level import ROUNDING
from warmside.plugins.weight.course.limits import CLUTCH, CLUTCH_DROP, CUSTOM, DEFAULTS, Limits
from warmside.plugins.weight.course.series import NONE, Weighings, day_text, gram_text
from warmside.plugins.weight.course.sign import Course, Sign, WeightSign
from warmside.plugins.weight.course.stall import stall_sign
from warmside.plugins.weight.loss.judging import loss_sign

_CLUTCHES_DAYS = 365.0
_MUCH_LESS = 0.15  # a clutch of a gecko takes a tenth each month of the season and is no news


def signs(
    course: Course, limits: Limits = DEFAULTS, day: float | None = None
) -> tuple[WeightSign, ...]:
    """All signs at the latest weighing that need no reference; none with fewer than two.

    Notes stand for ONCE_DAYS after it; `day` is the day that it is (that of the weighing, if none
    is given). A fall that was expected is told only where there is no loss to tell.
    """
    if len(course.weighings) < 2:
        return ()
    today = course.weighings.days[-1] if day is None else day
    loss = loss_sign(course, limits)
    fall = None if loss else expected_fall(course, today, limits)
    stall = None if loss else stall_sign(course, limits)
    found = (loss, fall, stall, gain_sign(course, today, limits))
    return tuple(one for one in found if one is not None)


def expected_fall(course: Course, day: float, limits: Limits = DEFAULTS) -> WeightSign | None:
    """The last fall, where a clutch, a litter or winter cooling lies in it.

    A note, said once, while it is within what the cause explains; nothing for a small clutch. Look
    soon where a clutch took more, or where she is lighter after each clutch.
    """
    pair = course.weighings[-2:]
    change = pair.masses_g[1] / pair.masses_g[0] - 1
    if change < 0 and _any_within(course.laid, pair):
        found: WeightSign | None = _lighter_each_time(course, limits) or _after_laying(
            pair, change, limits
        )
    else:
        found = _in_cooling(course, limits)
    if found and found.level is Level.NOTE and day - pair.days[1] > ONCE_DAYS:
        return None
    return found


def _after_laying(pair: Weighings, change: float, limits: Limits) -> WeightSign | None:
    if -change < _MUCH_LESS:
        return None
    much = -change > CLUTCH_DROP
    words = (
        f"{_from_to(pair, limits)}: {-100 * change:.0f} % less after laying or giving birth, "
        + (
            f"more than the {100 * CLUTCH_DROP:.0f} % that a clutch may take; ask a reptile vet"
            if much
            else "as expected"
        )
    )
    level = Level.LOOK_SOON if much else Level.NOTE
    return WeightSign(Sign.AFTER_LAYING, level, words, pair.events, CLUTCH, change)


def _lighter_each_time(course: Course, limits: Limits) -> WeightSign | None:
    """Soon after this clutch much lighter than soon after an earlier one of the year."""
    those = course.weighings
    first = those.days[-1] - _CLUTCHES_DAYS
    after = [_first_after(those, d) for d in course.laid if first <= d <= those.days[-1]]
    masses = [w for w in after if len(w)]
    if len(masses) < 2:
        return None
    best = max(masses[:-1], key=lambda w: w.masses_g[0])
    change = those.masses_g[-1] / best.masses_g[0] - 1
    if those.days[-1] - course.laid[-1] > 14 or -change < 1.2 * limits.vet_loss - ROUNDING:
        return None
    pair = Weighings(
        (best.events[0], those.events[-1]),
        (best.days[0], those.days[-1]),
        (best.masses_g[0], those.masses_g[-1]),
    )
    words = (
        f"{_from_to(pair, limits)}: {-100 * change:.0f} % less than after an earlier clutch; more "
        "food and calcium between clutches, and ask a reptile vet"
    )
    return WeightSign(Sign.AFTER_LAYING, Level.LOOK_SOON, words, pair.events, CUSTOM, change)


def _first_after(those: Weighings, laid: float) -> Weighings:
    return those.between(laid, laid + 14)[:1]


def _in_cooling(course: Course, limits: Limits) -> WeightSign | None:
    """Half of the acute limit lost since it began, told when the last weighing first shows it."""
    those = course.weighings
    begin = max((b for b, end in course.cooled if b <= those.days[-1] <= end), default=None)
    before = NONE if begin is None else those.between(0, begin)[-1:]
    if not len(before) or before.events[0] == those.events[-1]:
        return None
    changes = [mass / before.masses_g[0] - 1 for mass in those.masses_g[-2:]]
    least = limits.acute_loss / 2 - ROUNDING
    if -changes[-1] < least or -changes[0] >= least:
        return None
    pair = Weighings(
        (before.events[0], those.events[-1]),
        (before.days[0], those.days[-1]),
        (before.masses_g[0], those.masses_g[-1]),
    )
    words = (
        f"{_from_to(pair, limits)}: {-100 * changes[-1]:.0f} % less in winter cooling; some loss "
        f"is expected, beyond {100 * limits.acute_loss:.0f} % ask a reptile vet"
    )
    return WeightSign(Sign.COOLING, Level.NOTE, words, pair.events, CUSTOM, changes[-1])


def _any_within(days: Sequence[float], pair: Weighings) -> bool:
    return any(pair.days[0] <= day <= pair.days[1] for day in reversed(days))


def _from_to(pair: Weighings, limits: Limits) -> str:
    return (
        f"{gram_text(pair.masses_g[0], limits.display)} on {day_text(pair.days[0])} to "
        f"{gram_text(pair.masses_g[-1], limits.display)} on {day_text(pair.days[-1])}"
    )
