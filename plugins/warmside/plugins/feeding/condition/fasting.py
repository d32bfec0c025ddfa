"""What a fast costs: the loss of mass that is to be expected, from the resting rate and body fat.

Between what is burnt asleep and awake at its own temperatures (Andrews & Pough 1985), met by
tissue of 30 to 42 kJ/g: fat alone holds about 39, with some protein and water it is less.
"""

from __future__ import annotations

from datetime import date, timedelta

from msgspec import Struct

from warmside.api import Basis, Estimate, Mark, Source, Unit
from warmside.plugins.feeding.energy.rates import ANDREWS_POUGH, Day, needs
from warmside.plugins.feeding.meals.records import Weighing

TISSUE_KJ_PER_G = (30.0, 42.0)
TISSUE = Source(
    f"{ANDREWS_POUGH.text}; body fat of 39 kJ/g and what goes with it: 30 to 42 kJ/g from memory",
    Mark.FROM_MEMORY,
)
# Digesting the last meal is over after about a week: Ott & Secor 2007, J Exp Biol 210:340-356.
DIGESTED_DAYS = 7
# Shorter spans drown in the weight of gut and water.
LEAST_DAYS = 21


class FastCost(Struct, frozen=True):
    """The loss in g that a fast of so many days costs, and the loss seen between two weighings."""

    days: int
    expected: Estimate
    seen_g: float
    first: Weighing
    last: Weighing


def expected_loss(mass_g: float, days: float, day: Day) -> Estimate:
    """Loss of mass in g over so many days without food at the temperatures of a day."""
    mass = Estimate(mass_g, mass_g, mass_g, Unit.MASS, Basis("before the fast"))
    burnt = needs(mass, day)
    asleep, awake = burnt.standard.value or 0.0, burnt.resting.value or 0.0
    least, most = days * asleep / TISSUE_KJ_PER_G[1], days * awake / TISSUE_KJ_PER_G[0]
    rule = f"{days:.0f} days of its resting rate ({burnt.resting.basis.rule}) met by body fat"
    return Estimate(None, least, most, Unit.MASS, Basis(rule, TISSUE))


def cost_of(weighings: tuple[Weighing, ...], eaten: date, day: Day) -> FastCost | None:
    """What the fast since a meal has cost; None without two weighings that are apart enough.

    From the first weighing after the meal is digested, else the last one before, to the newest.
    """
    from_day = eaten + timedelta(days=DIGESTED_DAYS)
    known = sorted(weighings, key=lambda w: w.day)
    after = [w for w in known if w.day >= from_day]
    before = [w for w in known if eaten - timedelta(days=2 * DIGESTED_DAYS) <= w.day < from_day]
    start = before[-1] if before else (after[0] if after else None)
    if start is None or not after:
        return None
    last = after[-1]
    days = (last.day - max(start.day, from_day)).days
    if days < LEAST_DAYS:
        return None
    expected = expected_loss(start.mass_g, days, day)
    return FastCost(days, expected, start.mass_g - last.mass_g, start, last)
