"""What an animal ate against what it burns.

Metabolizable energy of the prey, less the cost of digestion, over the resting rate at the
temperatures it lives at. Words for the keeper, with the range; never a ration.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from datetime import date, timedelta
from enum import StrEnum

from msgspec import Struct

from warmside.api import BadInput, Basis, Estimate, Mark, Source, Unit, counted
from warmside.plugins.feeding.care.diets import Stage
from warmside.plugins.feeding.care.rules import Rules
from warmside.plugins.feeding.care.species import Species
from warmside.plugins.feeding.condition.digestion import Digestion, digestion_of
from warmside.plugins.feeding.energy.rates import Day, Needs, needs
from warmside.plugins.feeding.meals.records import Offer
from warmside.plugins.feeding.prey.classes import known_prey, prey_named

# A mass that changed by less is taken as held.
HELD_PERCENT = 3.0
# A range wider than so many times says nothing; fewer meals are chance. Both our own choice.
CLEAR, LEAST_MEALS = 3.0, 3


class Verdict(StrEnum):
    """The balance in words."""

    UNKNOWN = "no meals on record"
    UNCLEAR = "not told: the range is too wide"
    LESS = "less than it burns"
    EVEN = "about even"
    GROWING = "growing"
    SURPLUS = "more than an adult needs for long"


class Balance(Struct, frozen=True):
    """Energy over some weeks: eaten (gross), left after digestion, burnt; their ratio; words."""

    weeks: int
    since: date
    until: date
    meals: int
    eaten: Estimate
    net: Estimate
    needs: Needs
    ratio: Estimate
    trend: Estimate | None
    verdict: Verdict
    words: str

    @property
    def is_clear(self) -> bool:
        """The ratio is known well enough to speak on: within a factor of three."""
        return self.verdict not in (Verdict.UNKNOWN, Verdict.UNCLEAR)


def meal_kj(offer: Offer) -> tuple[float, float, float]:
    """Metabolizable energy eaten of one offer, kJ: value, least, most."""
    prey = prey_named(offer.prey)
    each = offer.each_g
    low, high = (each, each) if each else prey.mass_g
    value = prey.kj(offer.eaten * (each or prey.typical_g))
    return (value, *prey.kj_range(offer.eaten * low, offer.eaten * high))


def kept_down(offers: Sequence[Offer], regurgitations: Sequence[date]) -> tuple[Offer, ...]:
    """The offers eaten and kept: without the last meal before each regurgitation."""
    eaten = sorted((o for o in offers if not o.refused), key=lambda o: o.day)
    for day in regurgitations:
        before = [o for o in eaten if o.day <= day]
        if before:
            eaten.remove(before[-1])
    return tuple(eaten)


def balance(
    species: Species,
    mass: Estimate,
    offers: Sequence[Offer],
    until: date,
    weeks: int,
    rules: Rules,
    *,
    day: Day | None = None,
    stage: Stage | None = None,
    trend: Estimate | None = None,
    regurgitations: Sequence[date] = (),
) -> Balance:
    """The balance of the weeks before and with `until`.

    `mass` in g stands for the whole span; `day` are its own temperatures, else the species'.
    Meals of a class that is not known are left out, and that is said.
    """
    if weeks < 1:
        raise BadInput(f"{weeks} weeks to look back; give at least 1")
    since = until - timedelta(days=7 * weeks)
    inside = [o for o in kept_down(offers, regurgitations) if since < o.day <= until]
    kept = [o for o in inside if known_prey(o.prey)]
    eaten = _eaten_per_day(kept, weeks)
    cost = digestion_of(species)
    net = _net(eaten, cost)
    need = needs(mass, day or species.usual_day)
    ratio = _ratio(eaten, cost, need)
    verdict = Verdict.UNKNOWN
    if offers:
        clear = is_clear(ratio, len(kept))
        verdict = _verdict(ratio, stage, weeks, trend, rules) if clear else Verdict.UNCLEAR
    words = _words(verdict, ratio, trend, need, net)
    if verdict is Verdict.UNCLEAR:
        words = missing(kept, day is not None)
    if len(inside) > len(kept):
        unknown = counted(len(inside) - len(kept), "meal")
        words += f"; {unknown} of no known prey class left out"
    return Balance(weeks, since, until, len(kept), eaten, net, need, ratio, trend, verdict, words)


def _eaten_per_day(kept: Sequence[Offer], weeks: int) -> Estimate:
    energies, days = [meal_kj(o) for o in kept], 7.0 * weeks
    value, low, high = (sum(e[i] for e in energies) / days for i in range(3))
    # Where the span is cut between two meals matters by up to half a meal either way.
    edge = 0.5 / len(energies) if energies else 0.0
    sources = {prey_named(o.prey).energy_source for o in kept}
    table = Source("prey table, a source a row", _least(sources))
    source = next(iter(sources)) if len(sources) == 1 else table
    events = tuple(o.event for o in kept if o.event)
    basis = Basis(
        f"{counted(len(kept), 'meal')} in {counted(weeks, 'week')}, metabolizable energy",
        source,
        events,
    )
    return Estimate(value, low * (1.0 - edge), high * (1.0 + edge), Unit.ENERGY_RATE, basis)


def _least(sources: set[Source]) -> Mark:
    order = list(Mark)
    return max((s.mark for s in sources), key=order.index, default=Mark.KEEPERS_OWN)


def _net(eaten: Estimate, cost: Digestion) -> Estimate:
    assert eaten.value is not None
    rule = f"eaten, less {100 * cost.least:.0f} % to {100 * cost.most:.0f} % for digestion"
    return Estimate(
        eaten.value * (1.0 - cost.usual),
        eaten.low * (1.0 - cost.most),
        eaten.high * (1.0 - cost.least),
        Unit.ENERGY_RATE,
        Basis(rule, cost.source, eaten.basis.events),
    )


def _ratio(eaten: Estimate, cost: Digestion, need: Needs) -> Estimate:
    """Energy left after digestion over the resting rate.

    The prey, its digestion and the rate are wrong independently of each other, so their errors are
    added as squares of logarithms, not all taken at their worst at once.
    """
    resting = need.resting
    assert eaten.value is not None and resting.value is not None
    basis = Basis("energy left after digestion over the resting rate", resting.basis.source)
    value, usual = eaten.value * (1.0 - cost.usual) / resting.value, 1.0 - cost.usual
    if not value or not eaten.low:
        high = eaten.high * (1.0 - cost.least) / resting.low
        return Estimate(value, 0.0, high, Unit.RATIO, basis)
    low = _off(eaten.value / eaten.low, usual / (1.0 - cost.most), resting.high / resting.value)
    high = _off(eaten.high / eaten.value, (1.0 - cost.least) / usual, resting.value / resting.low)
    return Estimate(value, value / low, value * high, Unit.RATIO, basis)


def _off(*factors: float) -> float:
    """The factor by which independent factors are off together."""
    return math.exp(math.hypot(*(math.log(f) for f in factors)))


def is_clear(ratio: Estimate, meals: int) -> bool:
    """Whether the ratio may be spoken on: enough meals, or none at all, and a narrow range."""
    if not meals:
        return True
    return meals >= LEAST_MEALS and ratio.low > 0 and ratio.high < CLEAR * ratio.low


def missing(kept: Sequence[Offer], own_day: bool) -> str:
    """What a balance lacks that cannot be told."""
    weighed = sum(1 for o in kept if o.each_g)
    wanted = []
    if len(kept) < LEAST_MEALS:
        wanted.append(f"at least {LEAST_MEALS} meals (there are {len(kept)})")
    if weighed < len(kept):
        wanted.append(f"the prey weighed ({weighed} of {counted(len(kept), 'meal')})")
    if not own_day:
        wanted.append("readings of the warm and the cool side")
    lacking = ", ".join(wanted) or "a fresh weight and steadier readings"
    return f"to tell the energy balance it lacks {lacking}"


def _verdict(
    ratio: Estimate, stage: Stage | None, weeks: int, trend: Estimate | None, rules: Rules
) -> Verdict:
    assert ratio.value is not None
    if ratio.high < 1.0:
        return Verdict.LESS
    falling = trend is not None and trend.high < 0
    long = stage is Stage.ADULT and weeks >= rules.surplus_weeks
    if long and ratio.value >= rules.surplus_ratio and not falling:
        return Verdict.SURPLUS
    return Verdict.GROWING if ratio.low > 1.0 else Verdict.EVEN


def _words(
    verdict: Verdict, ratio: Estimate, trend: Estimate | None, need: Needs, net: Estimate
) -> str:
    if verdict is Verdict.UNKNOWN:
        return "nothing can be said of what it eats"
    times = f"{ratio.low:.1f} to {ratio.high:.1f} times its resting need"
    said = [times]
    if net.low > (need.field.value or 0.0):
        said.append("that is above the field rate, the upper mark")
    said.append(_against(verdict, trend))
    if verdict in (Verdict.LESS, Verdict.SURPLUS):
        said.append("see a vet before changing the diet of an animal that looks thin, fat or ill")
    return "; ".join(said)


def _against(verdict: Verdict, trend: Estimate | None) -> str:
    if trend is None or trend.value is None:
        return "no weights in this time to hold it against"
    change = trend.value
    if abs(change) < HELD_PERCENT:
        seen = "its weight held"
    else:
        seen = f"its weight {'rose' if change > 0 else 'fell'} by {abs(change):.2g} %"
    odd = (change <= -HELD_PERCENT and verdict is not Verdict.LESS) or (
        change >= HELD_PERCENT and verdict is Verdict.LESS
    )
    return f"{seen}, which does not agree: trust the scale, check the records" if odd else seen
