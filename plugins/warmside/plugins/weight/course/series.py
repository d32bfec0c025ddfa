"""An animal's weighings as columns, so that ten years of them are sliced rather than walked.

Days are proleptic Gregorian ordinals with a fraction for the time of day (UTC); masses are in g.
"""

from __future__ import annotations

from bisect import bisect_left, bisect_right
from collections.abc import Collection, Iterable, Sequence
from datetime import date
from functools import cached_property
from operator import itemgetter

from msgspec import Struct

from warmside.api import Display, Unit, format_quantity
from warmside.plugins.weight.course.scale import scale_step

_YEAR, _LEAST = 365.0, 3


class Weighings(Struct, frozen=True, dict=True):
    """Event ids, days (never falling) and masses in g, of equal length; `NONE` is empty.

    `step_g` is the step of the scale in g, 0 where none is seen; parts keep that of the whole.
    """

    events: tuple[int, ...] = ()
    days: tuple[float, ...] = ()
    masses_g: tuple[float, ...] = ()
    step_g: float = 0.0

    @cached_property
    def middles_g(self) -> tuple[float, ...]:
        """The median of each three weighings running, from the third on: many signs ask for it."""
        m, found = self.masses_g, []
        for a, b, c in zip(m, m[1:], m[2:], strict=False):  # five times faster than to sort them
            low, high = (a, b) if a < b else (b, a)
            found.append(low if c < low else high if c > high else c)
        return tuple(found)

    @cached_property
    def years_middle_g(self) -> float | None:
        """The median of the year before the last two; None with fewer than three in it."""
        year = self.masses_g[bisect_left(self.days, self.days[-1] - _YEAR) : -2]
        return middle(year) if len(year) >= _LEAST else None

    def __len__(self) -> int:
        return len(self.events)

    def __getitem__(self, part: slice) -> Weighings:
        """A stretch of the weighings, by position."""
        return Weighings(self.events[part], self.days[part], self.masses_g[part], self.step_g)

    def between(self, first: float, last: float) -> Weighings:
        """Those from one day to another, both included."""
        return self[bisect_left(self.days, first) : bisect_right(self.days, last)]

    def without(self, events: Collection[int]) -> Weighings:
        """All but the named events."""
        if not events:
            return self
        left = set(events)
        rows = zip(self.events, self.days, self.masses_g, strict=True)
        return _in_columns([row for row in rows if row[0] not in left], self.step_g)

    def only(self, events: Collection[int]) -> Weighings:
        """The named events alone."""
        kept = set(events)
        return self.without([e for e in self.events if e not in kept])


END_OF_DAY = 0.999
"""The part of a day that has passed at its end."""
NONE = Weighings()


def weighings(rows: Iterable[tuple[int, float, float]]) -> Weighings:
    """Weighings from rows of (event id, day, mass in g), in any order."""
    ordered = sorted(rows, key=itemgetter(1))
    return _in_columns(ordered, scale_step([mass for _, _, mass in ordered]))


def _in_columns(ordered: Sequence[tuple[int, float, float]], step_g: float) -> Weighings:
    events, days, masses = zip(*ordered, strict=True) if ordered else ((), (), ())
    return Weighings(events, days, masses, step_g)


def less_meals(
    those: Weighings, meals: Sequence[tuple[float, float]], digestion_days: float
) -> Weighings:
    """The weighings less what is still in the gut of the meals taken before them.

    Meals are (day, mass in g) in order of day. A meal counts whole on its day and falls evenly to
    nothing after `digestion_days` (common practice, no source: a snake is weighed before a meal or
    some days after it). What would leave less than half of the reading is not taken off.
    """
    if not meals or digestion_days <= 0:
        return those
    meal_days = [day for day, _ in meals]
    masses = []
    for day, mass in zip(those.days, those.masses_g, strict=True):
        last = bisect_right(meal_days, day)
        gut = 0.0
        while last and day - meal_days[last - 1] < digestion_days:
            last -= 1
            gut += meals[last][1] * (1 - (day - meal_days[last]) / digestion_days)
        masses.append(mass - gut if gut < mass / 2 else mass)
    return Weighings(those.events, those.days, tuple(masses), those.step_g)


def middle(values: Iterable[float]) -> float:
    """The median; not from `statistics`, whose import costs the round 8 ms."""
    ordered = sorted(values)
    half = len(ordered) // 2
    return ordered[half] if len(ordered) % 2 else (ordered[half - 1] + ordered[half]) / 2


def day_text(day: float) -> str:
    """A day as an ISO date."""
    return date.fromordinal(int(day)).isoformat()


def gram_text(mass_g: float, display: Display) -> str:
    """A mass with the digits that a kitchen scale gives, or as the collection shows masses."""
    if display.style(Unit.MASS) is not Display.METRIC.style(Unit.MASS):
        return format_quantity(mass_g, Unit.MASS, display)
    return f"{mass_g:.0f} g" if mass_g >= 100 else f"{mass_g:.3g} g"


class MassWords(Struct, frozen=True):
    """A sentence with a `{}` for each of its masses, so that every collection has its own units."""

    text: str
    masses_g: tuple[float, ...] = ()

    def said(self, display: Display) -> str:
        """The sentence in the units of a collection."""
        return self.text.format(*(gram_text(mass, display) for mass in self.masses_g))
