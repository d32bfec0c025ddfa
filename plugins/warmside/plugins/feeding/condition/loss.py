"""How much of its mass an animal has lost, of late and over the year."""

from __future__ import annotations

from collections.abc import Iterable
from datetime import date, timedelta

from msgspec import Struct

from warmside.api import Basis, Estimate, Unit
from warmside.plugins.feeding.care.rules import Rules
from warmside.plugins.feeding.meals.records import Weighing

ROUNDING = 1e-9  # 1000 g to 900 g is a loss of 10 %, not of 9.999999999999998 %

# A full and an empty gut, percent of the mass either way.
GUT = 2.0
# Two weighings that are further apart differ by more than gut and bladder make of either: two and a
# half times GUT, so that of healthy animals one in thirty does (simulated herds; our rule).
SURE = 5.0


class Loss(Struct, frozen=True):
    """Percent below the highest weight within the acute and the chronic days; 0 for none."""

    acute_percent: float
    chronic_percent: float
    last: Weighing
    events: tuple[int, ...]

    def reaches(self, rules: Rules, share: float = 1.0) -> bool:
        """The loss has come to `share` of the acute or of the chronic limit."""
        return (
            self.acute_percent >= share * rules.acute_loss_percent - ROUNDING
            or self.chronic_percent >= share * rules.chronic_loss_percent - ROUNDING
        )

    @property
    def words(self) -> str:
        """The loss in words; empty without one."""
        if self.chronic_percent <= 0:
            return ""
        acute, chronic = f"{self.acute_percent:.2g} %", f"{self.chronic_percent:.2g} %"
        if acute == chronic:
            return f"lost {acute} of its mass"
        return f"lost {acute} of its mass of late, {chronic} from its highest of the year"


def loss(
    weighings: Iterable[Weighing], day: date, rules: Rules, since: date | None = None
) -> Loss | None:
    """The loss up to a day; None without a weighing.

    Weighings before `since` (the day of laying) do not count: eggs are no loss of condition.
    """
    known = [w for w in weighings if w.day <= day and (since is None or w.day >= since)]
    if not known:
        return None
    last = max(known, key=lambda w: w.day)
    acute = _highest(known, last, rules.acute_days)
    chronic = _highest(known, last, rules.chronic_days)
    events = tuple(dict.fromkeys(w.event for w in (acute, chronic, last) if w.event))
    return Loss(_percent(acute, last), _percent(chronic, last), last, events)


def trend(weighings: Iterable[Weighing], since: date, until: date, rules: Rules) -> Estimate | None:
    """Change of mass in percent from the first to the last weighing of a span of days.

    The range allows for a full and an empty gut: 2 % either way, common practice.
    """
    ends = _ends(weighings, since, until)
    if ends is None:
        return None
    events = tuple(w.event for w in ends if w.event)
    rule = ", ".join(f"{rules.grams(w.mass_g, None)} on {w.day.isoformat()}" for w in ends)
    percent = _change(*ends)
    return Estimate(percent, percent - GUT, percent + GUT, Unit.PERCENT, Basis(rule, events=events))


def direction(weighings: Iterable[Weighing], since: date, until: date) -> int:
    """-1 where the mass surely fell over a span of days, 1 where it rose, else 0."""
    ends = _ends(weighings, since, until)
    percent = _change(*ends) if ends else 0.0
    return (percent > SURE) - (percent < -SURE)


def _ends(
    weighings: Iterable[Weighing], since: date, until: date
) -> tuple[Weighing, Weighing] | None:
    known = sorted((w for w in weighings if since <= w.day <= until), key=lambda w: w.day)
    if len(known) < 2 or known[0].day == known[-1].day:
        return None
    return known[0], known[-1]


def _change(first: Weighing, last: Weighing) -> float:
    return (last.mass_g / first.mass_g - 1.0) * 100.0


def _highest(known: list[Weighing], last: Weighing, days: float) -> Weighing:
    start = last.day - timedelta(days=round(days))
    return max((w for w in known if start <= w.day <= last.day), key=lambda w: w.mass_g)


def _percent(high: Weighing, last: Weighing) -> float:
    return max(0.0, (1.0 - last.mass_g / high.mass_g) * 100.0)
