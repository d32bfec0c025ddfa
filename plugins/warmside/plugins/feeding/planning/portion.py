"""How big a meal is and which prey makes it up."""

from __future__ import annotations

import math
from collections.abc import Iterable

from msgspec import Struct

from warmside.api import Basis, Estimate, Unit, format_quantity
from warmside.plugins.feeding.care.rules import Rules
from warmside.plugins.feeding.care.species import Species
from warmside.plugins.feeding.energy.rates import Span, middle_mass
from warmside.plugins.feeding.prey.classes import Prey, prey_of_kinds

# A class is offered when a keeper has a fair choice of items: at least a quarter of the class.
FAIR_CHOICE = 0.25


class Fit(Struct, frozen=True):
    """Prey that makes up a meal: a count (insects: from, to), mass of one and of all in g."""

    prey: Prey
    count_low: int
    count_high: int
    each_g: Span
    total_g: Span

    @property
    def count(self) -> int:
        """The count to reckon with."""
        return (self.count_low + self.count_high) // 2

    @property
    def dish(self) -> str:
        """`2 × adult mouse`, or `leafy greens` where it is weighed."""
        return self.prey.name if self.prey.weighed else f"{self.count} × {self.prey.name}"

    def words(self, rules: Rules) -> str:
        """The fit as a keeper would say it."""
        if self.prey.weighed:
            return f"{_span_words(self.total_g, rules, digits=2)} of {self.prey.name}"
        if self.prey.insect:
            counts = dict.fromkeys((str(self.count_low), str(self.count_high)))
            mass = _span_words(self.total_g, rules, digits=2)
            return f"{' to '.join(counts)} × {self.prey.name}, {mass} together"
        return f"{self.count_low} × {self.prey.name} of {self.each_words(rules)}"

    def each_words(self, rules: Rules) -> str:
        """The mass of one as a keeper would say it."""
        return _span_words(self.each_g, rules)


def meal_range(mass: Estimate, species: Species, percent: float = 100.0) -> Estimate:
    """The mass of a meal in g, at `percent` of the usual size.

    Percent of body mass by life stage. Where a stage begins with a smaller percentage the meal
    stays as it was until the animal has grown into it, so more mass never means a smaller meal.
    """
    low = _grams(mass.low, species, 0) * percent / 100.0
    high = _grams(mass.high, species, 1) * percent / 100.0
    middle = middle_mass(mass)
    value = (_grams(middle, species, 0) + _grams(middle, species, 1)) / 2 * percent / 100.0
    share = species.meal_percent[species.stage(middle)]
    rule = f"{share[0]:g} to {share[1]:g} % of body mass as {species.stage(middle)}"
    if percent != 100.0:
        rule += f", cut to {percent:g} % of the usual meal"
    basis = Basis(rule, species.meal_source, mass.basis.events)
    return Estimate(value, low, high, Unit.MASS, basis)


def fits(
    meal: Span,
    species: Species,
    mass_g: float,
    rules: Rules,
    girth_mm: float | None = None,
    usual: str | None = None,
) -> tuple[Fit, ...]:
    """The prey classes that make up a meal in g, the `usual` class first, then single items.

    With a girth, no item is wider than the species' width rule allows.
    """
    widest, most = _widest_mm(species, girth_mm), int(rules.most_items)
    found = [
        fit
        for prey in prey_of_kinds(species.prey)
        if prey.insect or prey.weighed or _may_fit(prey, meal, most)
        for fit in _fits_of(prey, meal, mass_g, rules, widest)
    ]
    middle = sum(meal) / 2
    return tuple(sorted(found, key=lambda f: _rank(f, middle, species, usual)))


def why_nothing_fits(meal: Span, species: Species, girth_mm: float | None, rules: Rules) -> str:
    """What to say when no class fits."""
    prey = [p for p in prey_of_kinds(species.prey) if not p.treat and not p.weighed]
    wanted = f"a meal of {_span_words(meal, rules)}"
    smallest = min(prey, key=lambda p: p.mass_g[0])
    if smallest.mass_g[0] > meal[1]:
        return f"{wanted} is less than one {smallest.name}; ask a vet or the breeder before feeding"
    if girth_mm is not None:
        return f"no class makes up {wanted} without being wider than the width rule allows"
    return f"no class in usual counts makes up {wanted}; choose by eye and weigh the prey"


def width_words(fit: Fit, girth_mm: float | None, rules: Rules) -> str:
    """How wide the prey is against the animal, or that no girth was measured."""
    width = fit.prey.width_mm(fit.each_g[1])
    if girth_mm is None:
        return "no girth on record: compare by eye, prey no wider than the widest part of the body"
    ratio = width / (girth_mm / math.pi)
    wide = format_quantity(width, Unit.LENGTH, rules.display, digits=2)
    return f"prey about {wide} wide, {ratio:.2g} times the body by its girth"


def _span_words(span: Span, rules: Rules, digits: int = 3) -> str:
    low, high = (rules.grams(g, digits) for g in span)
    if low == high:
        return low
    same = low.count(" ") == 1 and low.split()[-1] == high.split()[-1]
    return f"{low.split()[0] if same else low} to {high}"


def _grams(mass_g: float, species: Species, side: int) -> float:
    tops = (*(start for _, start in species.starts_g[1:]), math.inf)
    return max(
        species.meal_percent[stage][side] / 100.0 * min(mass_g, top)
        for (stage, start), top in zip(species.starts_g, tops, strict=True)
        if mass_g >= start and stage in species.meal_percent
    )


def _widest_mm(species: Species, girth_mm: float | None) -> float:
    return math.inf if girth_mm is None else species.width_ratio[1] * girth_mm / math.pi


def _fits_of(
    prey: Prey, meal: Span, mass_g: float, rules: Rules, widest_mm: float
) -> Iterable[Fit]:
    if prey.weighed:
        return (Fit(prey, 1, 1, meal, meal),)
    if prey.insect:
        return _insect_fit(prey, meal, mass_g, rules, widest_mm)
    counts = range(1, int(rules.most_items) + 1)
    return filter(None, (_whole_prey(prey, n, meal, widest_mm) for n in counts))


def _may_fit(prey: Prey, meal: Span, most: int) -> bool:
    """So many items at most are neither all too big nor all too small: spares most of the work."""
    return prey.mass_g[0] <= meal[1] and prey.mass_g[1] * most >= meal[0]


def _whole_prey(prey: Prey, count: int, meal: Span, widest_mm: float) -> Fit | None:
    least, most = prey.mass_g
    top = most if math.isinf(widest_mm) else min(most, prey.mass_at_width(widest_mm))
    wanted = (meal[0] / count, meal[1] / count)
    low, high = max(least, wanted[0]), min(top, wanted[1])
    fair = FAIR_CHOICE * min(most - least, wanted[1] - wanted[0])
    if high < low or high - low < fair:
        return None
    return Fit(prey, count, count, (low, high), (low * count, high * count))


def _insect_fit(
    prey: Prey, meal: Span, mass_g: float, rules: Rules, widest_mm: float
) -> tuple[Fit, ...]:
    each = prey.typical_g
    low, high = max(1, math.ceil(meal[0] / each)), math.floor(meal[1] / each)
    too_big = each > mass_g * rules.insect_percent / 100.0 or prey.width_mm(each) > widest_mm
    if high < low or too_big:
        return ()
    return (Fit(prey, low, high, (each, each), (low * each, high * each)),)


def _rank(
    fit: Fit, middle: float, species: Species, usual: str | None
) -> tuple[bool, bool, bool, bool, int, float, int, int]:
    """Sorts fits: the usual class, its kind, staples, few items, near the middle of the range.

    From three items on the usual class is outgrown.
    """
    prey, kind = fit.prey, usual.split("-")[0] if usual else fit.prey.kind
    items = 0 if prey.insect or prey.weighed else fit.count
    off = 0.0 if prey.insect else round(abs(math.log(sum(fit.total_g) / 2 / middle)), 1)
    place = species.prey.index(prey.kind) if prey.kind in species.prey else 0
    never_usual = prey.treat and prey.insect
    outgrown = prey.code != usual or items > 2
    return never_usual, outgrown, prey.kind != kind, prey.treat, items, off, place, fit.count
