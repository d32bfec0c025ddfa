"""The next shed as ranges of days since the last one, given how long it has been already."""

from __future__ import annotations

import functools
import math
from collections.abc import Iterable, Sequence
from datetime import date, timedelta

from msgspec import Struct

from warmside.api import OWN_RECORDS, BadInput, Basis, Estimate, Mark, Source, Unit
from warmside.plugins.shed.forecast.censored import summary
from warmside.plugins.shed.forecast.change import Change, change_of
from warmside.plugins.shed.forecast.intervals import Interval
from warmside.plugins.shed.forecast.predictive import Predictive, Prior, before, updated
from warmside.plugins.shed.forecast.trend import Driver, Trend, shown

OVERDUE_CHANCE = 0.05
FARTHEST_DAYS = 36_500

TYPED = Source("the intervals that were typed", Mark.KEEPERS_OWN)


class Forecast(Struct, frozen=True):
    """Days from the last shed to the next, with the chances 50 and 90 % (equal tails).

    `usual_low_days` and `usual_high_days` are the 90 % range before the elapsed days were known;
    `chance_longer` is the chance that an interval lasts longer than the elapsed days.
    """

    elapsed_days: float
    median_days: float
    low_50_days: float
    high_50_days: float
    low_90_days: float
    high_90_days: float
    usual_low_days: float
    usual_high_days: float
    chance_longer: float
    basis: Basis
    trend: Trend | None = None

    @property
    def overdue(self) -> bool:
        """Whether fewer than 1 in 20 intervals would last so long: a note, not an alarm."""
        return self.chance_longer < OVERDUE_CHANCE

    @property
    def range_50(self) -> tuple[float, float]:
        """Days since the last shed between which half of the next sheds fall."""
        return self.low_50_days, self.high_50_days

    @property
    def range_90(self) -> tuple[float, float]:
        """Days since the last shed between which 9 of 10 of the next sheds fall."""
        return self.low_90_days, self.high_90_days

    def estimate(self) -> Estimate:
        """The middle with its 90 % range, in days since the last shed."""
        return Estimate(
            self.median_days, self.low_90_days, self.high_90_days, Unit.DAYS, self.basis
        )


class Prediction(Struct, frozen=True):
    """The next interval before any of its days has passed, and what that rests on.

    The chances that one question needs are worked out for it alone: a round asks many.
    """

    ahead: Predictive
    basis: Basis
    trend: Trend | None = None

    def after(self, elapsed_days: float) -> Forecast:
        """The whole forecast once so many days have passed; BadInput for days that cannot be."""
        _check(elapsed_days)
        longer = self.ahead.log_chance_longer(elapsed_days)
        exceeded = functools.partial(_exceeded, self.ahead, elapsed_days, longer)
        return Forecast(
            elapsed_days=elapsed_days,
            median_days=exceeded(0.5),
            low_50_days=exceeded(0.75),
            high_50_days=exceeded(0.25),
            low_90_days=exceeded(0.95),
            high_90_days=exceeded(0.05),
            usual_low_days=self.ahead.days_exceeded_with(math.log(0.95)),
            usual_high_days=self.ahead.days_exceeded_with(math.log(0.05)),
            chance_longer=math.exp(longer),
            basis=self.basis,
            trend=self.trend,
        )

    def is_overdue(self, elapsed_days: float) -> bool:
        """As `after(...).overdue`; half of the next lie above the location, so up to it none is."""
        if elapsed_days <= math.exp(self.ahead.location):
            return False
        return math.exp(self.ahead.log_chance_longer(elapsed_days)) < OVERDUE_CHANCE

    def exceeded(self, elapsed_days: float, chance: float) -> float:
        """The days that the interval exceeds with a chance, once so many have passed."""
        _check(elapsed_days)
        longer = self.ahead.log_chance_longer(elapsed_days)
        return _exceeded(self.ahead, elapsed_days, longer, chance)


def forecast(
    intervals: Sequence[Interval],
    elapsed_days: float = 0.0,
    prior: Prior | None = None,
    drivers: Iterable[Driver] = (),
) -> Forecast:
    """The next shed of one animal, from its intervals and the days since its last shed.

    `prior=None` leaves the prior out; that needs two exact intervals that differ. Raises BadInput
    where nothing can be said.
    """
    (only,) = forecasts(intervals, [elapsed_days], prior, drivers)
    return only


def forecasts(
    intervals: Sequence[Interval],
    elapsed_days: Sequence[float],
    prior: Prior | None = None,
    drivers: Iterable[Driver] = (),
) -> list[Forecast]:
    """As `forecast`, for several spans since the last shed, of which only one is known to be."""
    ahead = predicted(intervals, prior, drivers)
    each = {days: ahead.after(days) for days in set(elapsed_days)}
    return [each[days] for days in elapsed_days]


def predicted(
    intervals: Sequence[Interval], prior: Prior | None = None, drivers: Iterable[Driver] = ()
) -> Prediction:
    """What the intervals say of the next one, before any of its days has passed."""
    if prior is None:
        _check_enough(intervals)
    belief = before(prior)
    trend = shown(intervals, drivers, belief)
    change = None if trend else change_of(intervals, belief)
    if change:
        return Prediction(change.ahead, _basis(intervals, prior, None, change), None)
    ahead = trend.predictive if trend else updated(belief, summary(intervals, belief)).predictive()
    return Prediction(ahead, _basis(intervals, prior, trend, None), trend)


def on_days(last_shed: date, low_days: float, high_days: float) -> tuple[date, date]:
    """A range of days since the last shed as first and last date, rounded outward.

    A range that runs on for more than a century ends there.
    """
    low, high = (min(d, FARTHEST_DAYS) for d in (math.floor(low_days), math.ceil(high_days)))
    return last_shed + timedelta(days=low), last_shed + timedelta(days=high)


def _exceeded(ahead: Predictive, elapsed: float, longer: float, chance: float) -> float:
    """The days exceeded with a chance, once `elapsed` of them, of log chance `longer`, are over."""
    return max(elapsed, ahead.days_exceeded_with(math.log(chance) + longer))


def _check(elapsed_days: float) -> None:
    if not 0 <= elapsed_days <= FARTHEST_DAYS:
        raise BadInput(
            f"{elapsed_days:g} days since the last shed cannot be; give 0 to {FARTHEST_DAYS} days"
        )


def _check_enough(intervals: Sequence[Interval]) -> None:
    exact = [i.low_days for i in intervals if i.exact]
    if len(exact) < 2:
        raise BadInput(
            "without the prior a forecast needs 2 intervals of known length (3 sheds), "
            f"there are {len(exact)}; record more sheds or leave the prior in"
        )
    if len(set(exact)) < 2:
        raise BadInput(
            f"all intervals are {exact[0]:g} days, so without the prior there is no range; "
            "leave the prior in"
        )


def _basis(
    intervals: Sequence[Interval], prior: Prior | None, trend: Trend | None, change: Change | None
) -> Basis:
    count = len(intervals)
    many = f"{count or 'no'} interval{'' if count == 1 else 's'}"
    rule = f"log-normal prediction from {many}"
    bounded = sum(not i.exact for i in intervals)
    if bounded:
        rule += f", {bounded} of them known only between bounds"
    if trend:
        rule += f", changing with {trend.driver}"
    if change:
        rule += f"; {change.words}, so the range is wider"
    if prior:
        rule += f", with the {prior.life_stage} prior"
    events = tuple(sorted({e for i in intervals for e in i.events}))
    own = OWN_RECORDS if events else TYPED
    return Basis(rule, prior.source if prior else own, events)
