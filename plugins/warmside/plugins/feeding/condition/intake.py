"""What a keeper reads first: grams eaten a month against the body, the change of mass, the gain."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date

from msgspec import Struct

from warmside.api import OWN_RECORDS, Basis, Estimate, Source, Unit, counted
from warmside.plugins.feeding.energy.rates import Span
from warmside.plugins.feeding.meals.records import Offer, Weighing
from warmside.plugins.feeding.prey.classes import known_prey

MONTH = 30.4


class Intake(Struct, frozen=True):
    """What was eaten over some days: g and percent of body mass a month, beside the usual span.

    `gain_g` is the change of mass over the same time and `per_gram` that gain per g eaten; None
    without two weighings.
    """

    days: int
    meals: int
    weighed: int
    month_g: Estimate
    month_percent: Estimate
    usual_percent: Span | None
    usual_source: Source | None
    gain_g: float | None
    per_gram: float | None

    @property
    def verdict(self) -> str:
        """Where it lies against the usual span, where one is known."""
        if self.usual_percent is None:
            return "no usual share is known"
        low, high = self.usual_percent
        if self.month_percent.high < low:
            return "less than usual"
        return "more than usual" if self.month_percent.low > high else "as usual"


def intake(
    kept: Sequence[Offer],
    weighings: Sequence[Weighing],
    mass_g: float,
    since: date,
    until: date,
    usual: tuple[Span, Span, Source] | None,
) -> Intake:
    """The intake from meals kept down after `since`; `usual`: percent a meal, days, source."""
    days = (until - since).days
    meals = [o for o in kept if since < o.day <= until and known_prey(o.prey)]
    spans = [_grams(o) for o in meals]
    low, value, high = (sum(s[i] for s in spans) for i in range(3))
    factor = MONTH / days
    events = tuple(o.event for o in meals if o.event)
    basis = Basis(f"{counted(len(meals), 'meal')} in {counted(days, 'day')}", OWN_RECORDS, events)
    grams = Estimate(value * factor, low * factor, high * factor, Unit.MASS, basis)
    share = 100.0 / mass_g
    percent = Estimate(
        value * factor * share, low * factor * share, high * factor * share, Unit.PERCENT, basis
    )
    change = _change([w for w in weighings if since <= w.day <= until])
    per_gram = change / value if change is not None and value else None
    weighed = sum(1 for o in meals if o.each_g)
    span, source = (usual_a_month(*usual[:2]), usual[2]) if usual else (None, None)
    return Intake(days, len(meals), weighed, grams, percent, span, source, change, per_gram)


def usual_a_month(meal_percent: Span, interval_days: Span) -> Span:
    """Percent of body mass a month that the meals of a stage come to."""
    return (
        meal_percent[0] * MONTH / interval_days[1],
        meal_percent[1] * MONTH / interval_days[0],
    )


def _grams(offer: Offer) -> tuple[float, float, float]:
    prey = known_prey(offer.prey)
    assert prey is not None
    if offer.each_g:
        each = (offer.each_g, offer.each_g, offer.each_g)
    else:
        each = (prey.mass_g[0], prey.typical_g, prey.mass_g[1])
    low, value, high = (offer.eaten * g for g in each)
    return low, value, high


def _change(weighings: Sequence[Weighing]) -> float | None:
    known = sorted(weighings, key=lambda w: w.day)
    if len(known) < 2 or known[0].day == known[-1].day:
        return None
    return known[-1].mass_g - known[0].mass_g
