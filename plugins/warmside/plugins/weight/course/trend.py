"""The expected mass from the last few weighings: what a round over many animals can afford.

On the day of a weighing it is what was weighed; later the local curve of `local_fit`, with a range
that simulation checks (tests/bench/bench_alarms.py). The full growth curve (`growth`) costs a
hundred times as much and is for one animal at a time.
"""

from __future__ import annotations

from collections.abc import Sequence
from math import exp, log

from warmside.api import OWN_RECORDS, Basis, Estimate, Unit
from warmside.plugins.weight.course.limits import CLUTCH, CLUTCH_DROP, CUSTOM
from warmside.plugins.weight.course.local_fit import MOST, LocalFit, fitted
from warmside.plugins.weight.course.series import Weighings

_REACH_DAYS = 365
_AHEAD_DAYS = 60  # further ahead the curve is held level: no animal grows on for ever
_ALONE_AHEAD_DAYS = 30
_FEW, _MANY = 2.3, 2.0  # standard deviations of a 95 % range with few weighings, and with more
_ENOUGH = 6
_NEAR_LAID = 45.0


def expected_from_trend(
    those: Weighings, day: float, laid: Sequence[float] = (), known: LocalFit | None = None
) -> Estimate | None:
    """The mass on a day from up to 12 weighings of the year before it; None with no weighing.

    Only weighings since the last clutch or litter count; with none since, all that is said is
    between the last mass and that less the greatest clutch. `known` is what `fit_at_last` gave.
    """
    recent = _recent(those, day)
    if not len(recent):
        return None
    since = _since_laid(recent, day, laid)
    if not len(since):
        return _less_a_clutch(recent, laid)
    if known is None or known.of != since[-MOST:].events:
        known = fitted(since)
    return _from_fit(known, day)


def fit_at_last(those: Weighings, laid: Sequence[float]) -> LocalFit | None:
    """The fit to go by until the next weighing, so that it need not be made each day."""
    day = those.days[-1] if len(those) else 0.0
    since = _since_laid(_recent(those, day), day, laid)
    return fitted(since) if len(since) else None


def _since_laid(recent: Weighings, day: float, laid: Sequence[float]) -> Weighings:
    born = max((d for d in laid if d <= day), default=None)
    return recent if born is None else recent.between(born, day)


def reaches(those: Weighings, day: float) -> bool:
    """Whether the last weighings say more of that day than that growth is not known.

    60 days after the last one where three or more make a line, else 30: common practice, no source.
    """
    recent = _recent(those, day)
    ahead = _AHEAD_DAYS if len(recent) > 2 else _ALONE_AHEAD_DAYS
    return len(recent) > 0 and day - recent.days[-1] <= ahead + 1  # to the end of that day


def _recent(those: Weighings, day: float) -> Weighings:
    recent = those.between(day - _REACH_DAYS, day)
    return recent if len(recent) else those.between(0, day)[-1:]


def _from_fit(fit: LocalFit, day: float) -> Estimate:
    ahead = float(int(day) - int(fit.day))
    middle, spread = fit.at(min(ahead, _AHEAD_DAYS))
    if ahead > _AHEAD_DAYS:  # held level, ever less sure
        spread *= ahead / _AHEAD_DAYS
    half = min((_FEW if len(fit.used) < _ENOUGH else _MANY) * spread, log(1000.0))
    rule = (
        "the last weighing, 95 % range by what gut, bladder and scale make of one"
        if not ahead
        else "level or curved growth through the last weighings (12 at most, of a year), 95 % range"
    )
    basis = Basis(rule, CUSTOM, fit.used.events)
    low, high = exp(middle - half), exp(middle + half)
    return Estimate(exp(middle), low, high, Unit.MASS, basis)


def _less_a_clutch(before: Weighings, laid: Sequence[float]) -> Estimate:
    """What she took off at her own earlier clutches, half as much to half as much again."""
    mass, own = before.masses_g[-1], clutch_drops(before, laid)
    rule, source, low, high = "not weighed since it laid or gave birth", CLUTCH, CLUTCH_DROP, 0.0
    if own:
        rule, source = f"{rule}; less what earlier clutches took", OWN_RECORDS
        low, high = min(1.5 * max(own), CLUTCH_DROP), 0.5 * min(own)
    basis = Basis(rule, source, before.events[-1:])
    return Estimate(None, mass * (1 - low), mass * (1 - high), Unit.MASS, basis)


def clutch_drops(those: Weighings, laid: Sequence[float]) -> list[float]:
    """The parts of mass that fell between the weighings before and after each clutch."""
    found = []
    for day in laid:
        before, after = those.between(day - _NEAR_LAID, day), those.between(day, day + _NEAR_LAID)
        if len(before) and len(after):
            found.append(max(1 - after.masses_g[0] / before.masses_g[-1], 0.0))
    return found
