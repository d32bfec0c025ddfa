"""What an animal usually weighs, so that one noisy weighing is no peak; pure computation."""

from __future__ import annotations

from bisect import bisect_left

from warmside.plugins.weight.course.series import Weighings

ROUNDING = 1e-12  # 1000 g to 900 g is a loss of 10 %, not of 9.999999999999998 %
_LEAST = 3


def height(those: Weighings, days: float) -> float | None:
    """The highest median of three weighings running, the last of them within so many days.

    The last two weighings of all are what is judged and are left out; None with fewer than three.
    """
    first = max(_LEAST - 1, bisect_left(those.days, those.days[-1] - days))
    return max(those.middles_g[first - 2 : -2], default=None)


def below(those: Weighings, level: float, part: float, place: int = -1) -> bool:
    """Whether a weighing lies so far below a level: by a part of it, and by more than a step of
    the scale."""
    short = level - those.masses_g[place]
    return short >= (part - ROUNDING) * level and short > those.step_g * (1 + 1e-9)
