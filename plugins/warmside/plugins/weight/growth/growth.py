"""The animal's own growth curve: chosen by AICc, with doubtful weighings set aside and named.

Residuals count in percent (log mass). A weighing further than 3.5 robust standard deviations from
the curve that runs nearest to most (modified z score, Iglewicz & Hoaglin 1993, from memory) is set
aside and the curves are fitted again. An adult mass is only told where growth nears its end and the
data fix it; otherwise `why_no_adult` says "not enough of the curve yet". Residuals of growth hang
together for weeks, so the range is wider than the curve's own standard error.
"""

from __future__ import annotations

from collections.abc import Sequence
from math import exp, hypot, isfinite, log

from msgspec import Struct

from warmside.api import BadInput, Basis, Estimate, Unit, counted, figures
from warmside.plugins.weight.course.local_fit import fitted
from warmside.plugins.weight.course.series import MassWords, Weighings, middle
from warmside.plugins.weight.growth.fit import CurveFit, fit_shape
from warmside.plugins.weight.growth.shapes import SHAPES
from warmside.plugins.weight.slips.in_history import history_suspicions
from warmside.plugins.weight.slips.suspicion import slipped_events

MIN_WEIGHINGS = 8
"""Days of weighing that a growth curve needs: with fewer, AICc rightly chooses a flat line."""

NOT_ENOUGH = "not enough of the curve yet"
_MOST_POINTS = 60
_OUTLIER = 3.5
_LEAST_TO_JUDGE = 9  # with fewer, three parameters bend to any point
_LEAST_SIGMA = 0.03  # day-to-day scatter of gut and bladder; smaller residuals are no outliers
_PLAUSIBLE = 4.0  # AICc within this of the best: still supported (Burnham & Anderson 2002)
_WIDEST_ADULT = 2.0  # a 95 % range wider than this factor tells no adult mass (our rule)
_LEAST_REACHED = 0.6  # the heaviest weighing against the adult mass (our rule)
_STILL_DAYS, _STILL_RISING = 120.0, 0.12  # where it still gains so much, no end is in sight
_SHAPE, _LEFT = 0.05, 1.5  # what no shape knows: residuals of growth hang together for weeks
_AHEAD = 0.5  # how far beyond the weighings the curve is believed, as part of their span


class Growth(Struct, frozen=True):
    """The chosen curve, those still plausible beside it (best first), and what was set aside.

    `adult` is the adult mass, or None with the reason in `why_no_adult`.
    """

    best: CurveFit
    plausible: tuple[CurveFit, ...]
    used: Weighings
    set_aside: tuple[int, ...]
    adult: Estimate | None
    why_no_adult: MassWords


def grow(those: Weighings) -> Growth:
    """The growth curve of one animal's weighings (meals taken off, see `series.less_meals`).

    BadInput where fewer than MIN_WEIGHINGS days were weighed; says how many are missing.
    """
    slipped = slipped_events(history_suspicions(those))
    sound = _thinned(those.without(slipped))
    days = len({int(day) for day in sound.days})
    if days < MIN_WEIGHINGS:
        raise BadInput(
            f"weighings on {counted(days, 'day')}, a growth curve needs {MIN_WEIGHINGS}; "
            f"weigh on {MIN_WEIGHINGS - days} more"
        )
    aside: frozenset[int] = frozenset()
    for _ in range(4):
        used = sound.without(aside)
        fits = _fits(used)
        found = _outliers(fits, sound)
        if found == aside:
            break
        aside = found
    plausible = tuple(one for one in fits if one.aicc - fits[0].aicc <= _PLAUSIBLE)
    return put_together(plausible, used, tuple(sorted(slipped | aside)))


def put_together(
    plausible: tuple[CurveFit, ...], used: Weighings, set_aside: tuple[int, ...]
) -> Growth:
    """The growth curve of fits, best first, with the adult mass where they fix it."""
    adult, why = _adult(plausible, used)
    return Growth(plausible[0], plausible, used, set_aside, adult, why)


def expected_mass(growth: Growth, day: float) -> Estimate | None:
    """The mass on a day with its 95 % prediction range, over all plausible curves.

    None before the first weighing, and further ahead than the weighings can carry.
    """
    first, last = growth.used.days[0], growth.used.days[-1]
    known = growth.adult is not None
    if day < first or (not known and day > last + _AHEAD * (last - first)):
        return None
    ranges = [r for one in growth.plausible if (r := _predicted(one, day))]
    if not ranges:
        return None
    low, high = min(r[1] for r in ranges), max(r[2] for r in ranges)
    return Estimate(ranges[0][0], low, high, Unit.MASS, _basis(growth.best, growth.used))


def band(
    growth: Growth, days: Sequence[float]
) -> tuple[tuple[float, ...], tuple[float, ...], tuple[float, ...], tuple[float, ...]]:
    """Days within reach, and the expected mass, lower and upper 95 % limit in g on each."""
    rows = [(day, e) for day in days if (e := expected_mass(growth, day)) is not None]
    return (
        tuple(day for day, _ in rows),
        tuple(e.value or 0.0 for _, e in rows),
        tuple(e.low for _, e in rows),
        tuple(e.high for _, e in rows),
    )


def _fits(used: Weighings) -> list[CurveFit]:
    tried = (fit_shape(shape, used.days, used.masses_g) for shape in SHAPES)
    found = [f for f in tried if f is not None and isfinite(f.aicc) and f.fit.spread is not None]
    return sorted(found, key=lambda f: f.aicc)


def _outliers(fits: Sequence[CurveFit], those: Weighings) -> frozenset[int]:
    if len(those) < _LEAST_TO_JUDGE:
        return frozenset()
    residuals = min((_residuals(one, those) for one in fits), key=lambda rs: middle(map(abs, rs)))
    sigma = max(1.4826 * middle(map(abs, residuals)), _LEAST_SIGMA)
    pairs = zip(those.events, residuals, strict=True)
    return frozenset(event for event, r in pairs if abs(r) > _OUTLIER * sigma)


def _residuals(one: CurveFit, those: Weighings) -> list[float]:
    found = []
    for day, mass in zip(those.days, those.masses_g, strict=True):
        here = one.shape.value(day - one.origin, one.fit.parameters)
        found.append(0.0 if here is None else log(mass) - here[0])
    return found


def _predicted(one: CurveFit, day: float) -> tuple[float, float, float] | None:
    here = one.log_at(day)
    if here is None or one.sigma is None:
        return None
    spread = figures.t_quantile(0.975, one.df) * (one.sigma**2 + here[1] ** 2) ** 0.5
    if abs(here[0]) + spread > 50:
        return None
    return exp(here[0]), exp(here[0] - spread), exp(here[0] + spread)


def _adult(plausible: Sequence[CurveFit], used: Weighings) -> tuple[Estimate | None, MassWords]:
    """The adult mass where every plausible curve has one and together they fix it."""
    if not all(one.shape.adult and one.fit.converged for one in plausible):
        return None, MassWords(f"{NOT_ENOUGH}: these weighings do not show where growth ends")
    rising = max(fitted(used).rise(_STILL_DAYS), 0.0)
    if rising > _STILL_RISING:
        words = f"{NOT_ENOUGH}: it still gains about {100 * rising:.0f} % in {_STILL_DAYS:.0f} days"
        return None, MassWords(words)
    ranges = []
    for one in plausible:
        log_a = one.fit.parameters[0]
        own = figures.t_quantile(0.975, one.df) * one.standard_error(0)
        spread = hypot(own, 2 * (_SHAPE + _LEFT * rising))
        if log_a + spread > 50:
            return None, MassWords(f"{NOT_ENOUGH}: the adult mass is not fixed by these weighings")
        ranges.append((exp(log_a), exp(log_a - spread), exp(log_a + spread)))
    low, high = min(r[1] for r in ranges), max(r[2] for r in ranges)
    if high > _WIDEST_ADULT * low:
        words = f"{NOT_ENOUGH}: the adult mass could be anything from {{}} to {{}}"
        return None, MassWords(words, (low, high))
    if max(used.masses_g) < _LEAST_REACHED * ranges[0][0]:
        words = f"{NOT_ENOUGH}: the heaviest weighing is still far from the end of growth"
        return None, MassWords(words)
    rule = (
        f"own growth curve ({plausible[0].shape.name}); the range covers the plausible curves and "
        "what may be left of growth, and held 9 of 10 simulated animals"
    )
    basis = Basis(rule, events=used.events)
    return Estimate(ranges[0][0], low, high, Unit.MASS, basis), MassWords("")


def _basis(best: CurveFit, used: Weighings) -> Basis:
    rule = f"own growth curve ({best.shape.name}), 95 % range over the plausible curves"
    return Basis(rule, events=used.events)


def _thinned(those: Weighings) -> Weighings:
    """At most _MOST_POINTS weighings, evenly picked with the first and the last."""
    n = len(those)
    if n <= _MOST_POINTS:
        return those
    picked = [round(i * (n - 1) / (_MOST_POINTS - 1)) for i in range(_MOST_POINTS)]
    return Weighings(
        tuple(those.events[i] for i in picked),
        tuple(those.days[i] for i in picked),
        tuple(those.masses_g[i] for i in picked),
    )
