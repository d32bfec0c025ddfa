"""What an animal usually weighs, so that one noisy weighing is no peak; pure computation."""

from __future__ import annotations

from bisect import bisect_left
from itertools import chain

from warmside.plugins.weight.course.series import Weighings, middle

ROUNDING = 1e-12  # 1000 g to 900 g is a loss of 10 %, not of 9.999999999999998 %
_YEAR = 365.0
_LEAST = 3


def years_level(those: Weighings) -> float | None:
    """The median of the year before the last two weighings; None with fewer than three in it."""
    before = those[:-2].between(those.days[-1] - _YEAR, those.days[-1])
    return middle(before.masses_g) if len(before) >= _LEAST else None


def height(those: Weighings, days: float) -> float | None:
    """The highest median of three weighings running, the last of them within so many days.

    The last two weighings of all are what is judged and are left out; None with fewer than three.
    """
    if days not in those.heights:
        those.heights[days] = _height(those, days)
    return those.heights[days]


def _height(those: Weighings, days: float) -> float | None:
    masses = those.masses_g[:-2]
    first = max(_LEAST - 1, bisect_left(those.days, those.days[-1] - days))
    judged = masses[first - 2 :]
    if len(judged) < _LEAST:
        return None
    # The middle of three is the greatest of the lesser ones of its pairs.
    return max(chain(map(min, judged, judged[1:]), map(min, judged, judged[2:])))


def below(those: Weighings, level: float, part: float, place: int = -1) -> bool:
    """Whether a weighing lies so far below a level: by a part of it, and by more than a step of
    the scale."""
    short = level - those.masses_g[place]
    return short >= (part - ROUNDING) * level and short > those.step_g * (1 + 1e-9)
