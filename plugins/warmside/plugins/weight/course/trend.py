"""The expected mass from the last few weighings: what a round over many animals can afford.

A line through log mass by the median of pairwise slopes (Theil 1950, Sen 1968), which one odd
weighing does not tilt, with a prediction range from its residuals and Student's t. The full growth
curve (`growth`) costs a hundred times as much and is for one animal at a time.
"""

from __future__ import annotations

from math import exp, log, sqrt

from warmside.api import Basis, Estimate, Mark, Source, Unit, figures
from warmside.plugins.weight.course.series import Weighings, middle

_MOST = 12
_REACH_DAYS = 365
_LEAST_SPAN_DAYS = 14
_AHEAD_DAYS = 60  # further ahead the line is held level: no animal grows on for ever
_LEAST_SIGMA = 0.02  # gut and bladder alone
_ALONE_BASE, _ALONE_DAY, _ALONE_MOST = 0.05, 0.0015, 0.5
_ALONE_AHEAD_DAYS = 30
_CUSTOM = Source("keepers' custom", Mark.COMMON_PRACTICE)


def expected_from_trend(those: Weighings, day: float) -> Estimate | None:
    """The mass on a day from up to 12 weighings of the year before it; None with no weighing.

    With fewer than three, or within two weeks, it is the last mass, give or take 5 % and 0.15 %
    more for each day since.
    """
    recent = _recent(those, day)
    if not len(recent):
        return None
    return _from_line(recent, day) if _make_a_line(recent) else _from_last(recent, day)


def reaches(those: Weighings, day: float) -> bool:
    """Whether the last weighings say more of that day than that growth is not known.

    60 days after the last one where they make a line, else 30: common practice, no source.
    """
    recent = _recent(those, day)
    ahead = _AHEAD_DAYS if _make_a_line(recent) else _ALONE_AHEAD_DAYS
    return len(recent) > 0 and day - recent.days[-1] <= ahead + 1  # to the end of that day


def _recent(those: Weighings, day: float) -> Weighings:
    recent = those.between(day - _REACH_DAYS, day)[-_MOST:]
    return recent if len(recent) else those.between(0, day)[-1:]


def _make_a_line(recent: Weighings) -> bool:
    return len(recent) > 2 and recent.days[-1] - recent.days[0] >= _LEAST_SPAN_DAYS


def _from_last(recent: Weighings, day: float) -> Estimate:
    mass, event = recent.masses_g[-1], recent.events[-1]
    part = min(_ALONE_BASE + _ALONE_DAY * (day - recent.days[-1]), _ALONE_MOST)
    rule = "the last weighing, give or take 5 % and 0.15 % a day since"
    basis = Basis(rule, _CUSTOM, (event,))
    return Estimate(mass, mass * (1 - part), mass * (1 + part), Unit.MASS, basis)


def _from_line(recent: Weighings, day: float) -> Estimate:
    logs = [log(mass) for mass in recent.masses_g]
    days, n = recent.days, len(recent)
    slopes = [
        (logs[k] - logs[i]) / (days[k] - days[i])
        for i in range(n)
        for k in range(i + 1, n)
        if days[k] - days[i] >= 1
    ]
    slope = middle(slopes)
    level = middle(y - slope * (t - days[0]) for t, y in zip(days, logs, strict=True))
    offs = [y - level - slope * (t - days[0]) for t, y in zip(days, logs, strict=True)]
    robust = 1.4826 * middle(map(abs, offs)) * sqrt(n / (n - 2))
    x = min(day, days[-1] + _AHEAD_DAYS)
    mean = sum(days) / n
    lever = 1 + 1 / n + (day - mean) ** 2 / sum((t - mean) ** 2 for t in days)
    spread = figures.t_quantile(0.975, n - 2) * max(robust, _LEAST_SIGMA) * sqrt(lever)
    value = level + slope * (x - days[0])
    basis = Basis(
        "line through the last weighings (12 at most, of a year), 95 % range", events=recent.events
    )
    return Estimate(exp(value), exp(value - spread), exp(value + spread), Unit.MASS, basis)
