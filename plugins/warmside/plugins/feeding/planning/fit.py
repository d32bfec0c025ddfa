"""Who eats, and food that makes up its meal."""

from __future__ import annotations

import math

from msgspec import Struct

from warmside.plugins.feeding.care.rules import Rules
from warmside.plugins.feeding.care.species import Species
from warmside.plugins.feeding.energy.rates import Span
from warmside.plugins.feeding.planning.head import eyes_mm
from warmside.plugins.feeding.prey.classes import Prey


class Fit(Struct, frozen=True):
    """Prey that makes up a meal: a count (insects: from, to), mass of one and of all in g.

    `is_part`: only a piece of one is given.
    """

    prey: Prey
    count_low: int
    count_high: int
    each_g: Span
    total_g: Span
    is_part: bool = False

    @property
    def count(self) -> int:
        """The count to reckon with."""
        return (self.count_low + self.count_high) // 2

    @property
    def dish(self) -> str:
        """`2 × adult mouse`, or `leafy greens` where it is weighed."""
        if self.is_part:
            return f"a piece of {self.prey.name}"
        return self.prey.name if self.prey.weighed else f"{self.count} × {self.prey.name}"

    def words(self, rules: Rules) -> str:
        """The fit as a keeper would say it."""
        if self.prey.weighed:
            return f"{span_words(self.total_g, rules, digits=2)} of {self.prey.name}"
        if self.is_part:
            return f"{span_words(self.each_g, rules, digits=2)} cut from {self.prey.name}"
        if self.prey.insect:
            counts = dict.fromkeys((str(self.count_low), str(self.count_high)))
            mass = span_words(self.total_g, rules, digits=2)
            return f"{' to '.join(counts)} × {self.prey.name}, {mass} together"
        return f"{self.count_low} × {self.prey.name} of {self.each_words(rules)}"

    def each_words(self, rules: Rules) -> str:
        """The mass of one as a keeper would say it."""
        return span_words(self.each_g, rules)


class Eater(Struct, frozen=True):
    """Who is to eat: its species and mass in g, girth and the space between its eyes in mm.

    `eaten` are codes of food that it ate before, newest first; `stocked` those in stock; `most`
    how many rodents or birds one meal may have.
    """

    species: Species
    mass_g: float
    most: int
    girth_mm: float | None = None
    eyes_mm: float | None = None
    eaten: tuple[str, ...] = ()
    stocked: frozenset[str] = frozenset()
    hatchling: bool = False

    @property
    def widest_mm(self) -> float:
        """How wide prey may be by the girth."""
        if self.girth_mm is None:
            return math.inf
        return self.species.width_ratio[1] * self.girth_mm / math.pi

    @property
    def gap_mm(self) -> float:
        """How long an insect may be."""
        return eyes_mm(self.mass_g) if self.eyes_mm is None else self.eyes_mm


def span_words(span: Span, rules: Rules, digits: int = 3) -> str:
    """Two masses as a keeper would say them."""
    low, high = (rules.grams(g, digits) for g in span)
    if low == high:
        return low
    same = low.count(" ") == 1 and low.split()[-1] == high.split()[-1]
    return f"{low.split()[0] if same else low} to {high}"
