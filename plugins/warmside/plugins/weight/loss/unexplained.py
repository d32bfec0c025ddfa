"""Loss without a known reason: slow wasting, a tenth and more, what is lighter than its peak.

To be looked at when two weighings running are together 5 % or more below, or one is so by more than
the noise of a weighing, or after three falls running; for a vet at 10 %.
"""

from __future__ import annotations

from itertools import pairwise

from warmside.api import Level
from warmside.plugins.weight.course.level import ROUNDING, below, height
from warmside.plugins.weight.course.limits import OUR_RULE, SUPPORT, Limits
from warmside.plugins.weight.course.noise import noise_of
from warmside.plugins.weight.course.series import Weighings, day_text, gram_text
from warmside.plugins.weight.course.sign import Course, Sign, WeightSign
from warmside.plugins.weight.loss.usual_mass import grows

_FALLS = 3
_LOW = 0.45  # of the loss to be looked at: both of two weighings that tell of one lie so low


def against(
    those: Weighings, course: Course, level: float, left: float, limits: Limits
) -> WeightSign | None:
    """Against its level and its height, of which a part is `left`."""
    high, level = left * max(height(those, limits.vet_days) or level, level), left * level
    fallen = by_peak(those, limits) if grows(those, course) else None  # it outruns its medians
    tenth = _tenth(those, high, limits) if below(those, high, limits.vet_loss) else None
    if tenth and fallen:
        return fallen if fallen.level is Level.ACT_NOW else tenth
    return tenth or fallen or _slow(those, level, limits)


def _slow(those: Weighings, level: float, limits: Limits) -> WeightSign | None:
    """Wasting: less than a tenth so far."""
    if _two_low(those, level, limits):
        two = f"two weighings running, together {100 * limits.low_loss:.0f} % or more"
        return wasting(those, level, two, limits)
    if below(those, level, limits.low_loss + noise_of(those)):
        return wasting(those, level, "weigh again within days: one weighing so far", limits)
    if _falls(those, limits) and below(those, level, limits.low_loss):
        return wasting(those, level, "three falls running,", limits)
    return None


def _two_low(those: Weighings, level: float, limits: Limits) -> bool:
    """Both of the last two low, and together as much below as one must be."""
    low = all(below(those, level, _LOW * limits.low_loss, i) for i in (-1, -2))
    mean = sum(those.masses_g[-2:]) / 2
    return low and level - mean >= (limits.low_loss - ROUNDING) * level


def _falls(those: Weighings, limits: Limits) -> bool:
    """Three falls running that together come to 5 % and to more than a step of the scale."""
    last = those.masses_g[-_FALLS - 1 :]
    if len(last) <= _FALLS or any(b >= a for a, b in pairwise(last)):
        return False
    fallen = last[0] - last[-1]
    return fallen >= limits.low_loss * last[0] and fallen > those.step_g


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


def wasting(those: Weighings, level: float, what: str, limits: Limits) -> WeightSign:
    change = those.masses_g[-1] / level - 1
    words = (
        f"{_usual_to(those, level, limits)}: {what} below its level of the year, also if it eats; "
        "check food, warmth and droppings, and weigh weekly"
    )
    events = those.events[-4:] if what.startswith("three") else those.events[-2:]
    return WeightSign(Sign.WASTING, Level.LOOK_SOON, words, events, OUR_RULE, change)


def by_peak(those: Weighings, limits: Limits) -> WeightSign | None:
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
                f"{last_words(those, limits)}: lost {-100 * change:.0f} %; weigh again, "
                "check food, water and warmth, and ask a reptile vet"
            )
            level = Level.ACT_NOW if grave else Level.LOOK_SOON
            events = (window.events[place], window.events[-1])
            return WeightSign(Sign.LOSS, level, words, events, SUPPORT, change)
    return None


def _usual_to(those: Weighings, level: float, limits: Limits) -> str:
    lost = 100 * (1 - those.masses_g[-1] / level)
    usually = f"usually {gram_text(level, limits.display)}, {last_words(those, limits)}"
    return f"{usually}: {lost:.0f} % lighter"


def last_words(those: Weighings, limits: Limits) -> str:
    return f"{gram_text(those.masses_g[-1], limits.display)} on {day_text(those.days[-1])}"
