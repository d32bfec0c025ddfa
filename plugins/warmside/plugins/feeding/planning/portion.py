"""How big a meal is and which prey makes it up."""

from __future__ import annotations

import math
from collections.abc import Iterable

from warmside.api import Basis, Estimate, Unit, format_quantity
from warmside.plugins.feeding.care.diets import Stage
from warmside.plugins.feeding.care.rules import Rules
from warmside.plugins.feeding.care.species import Species
from warmside.plugins.feeding.energy.rates import Span, middle_mass
from warmside.plugins.feeding.planning.fit import Eater, Fit, span_words
from warmside.plugins.feeding.planning.head import is_short_enough
from warmside.plugins.feeding.planning.nearest import nearest
from warmside.plugins.feeding.planning.share import meal_grams, meal_share
from warmside.plugins.feeding.prey.classes import Prey, known_prey, prey_of_kinds

# A class is offered when a keeper has a fair choice of items: at least a quarter of the class.
FAIR_CHOICE = 0.25
# Nobody counts out more insects for one day; common practice, no source.
MOST_INSECTS = 40
# From more on a larger class of the same kind comes first: the same.
MANY_INSECTS = 30


def meal_range(
    mass: Estimate, species: Species, percent: float = 100.0, stage: Stage | None = None
) -> Estimate:
    """The mass of a meal in g, at `percent` of the usual size.

    Percent of body mass, going down smoothly as it grows up; `stage` is its life stage, where that
    says more than its mass.
    """
    middle, part = middle_mass(mass), percent / 100.0
    ends, share = meal_grams(species, middle, stage), meal_share(species, middle, stage)
    low = ends if mass.low == middle else meal_grams(species, mass.low, stage)
    high = ends if mass.high == middle else meal_grams(species, mass.high, stage)
    rule = f"{share[0]:.2g} to {share[1]:.2g} % of body mass"
    rule += f" as {stage}" if stage else ""
    if percent != 100.0:
        rule += f", cut to {percent:g} % of the usual meal"
    basis = Basis(rule, species.meal_source, mass.basis.events)
    return Estimate(sum(ends) / 2 * part, low[0] * part, high[1] * part, Unit.MASS, basis)


def fits(meal: Span, eater: Eater) -> tuple[Fit, ...]:
    """The food that makes up a meal in g: what it ate before first, then what is in stock.

    Where no class makes it up, the nearest that can be bought, or a piece of the smallest. With a
    girth, no item is wider than the species' width rule allows.
    """
    found = [
        fit
        for prey in prey_of_kinds(eater.species.prey)
        if prey.insect or prey.weighed or _may_fit(prey, meal, eater.most)
        for fit in _fits_of(prey, meal, eater)
    ]
    if not any(not f.prey.treat for f in found):
        found += nearest(meal, eater)
    middle, ate = sum(meal) / 2, frozenset(map(_kind, eater.eaten))
    return tuple(sorted(found, key=lambda f: _rank(f, middle, eater, ate)))


def why_nothing_fits(meal: Span, species: Species, girth_mm: float | None, rules: Rules) -> str:
    """What to say when no class fits."""
    prey = [p for p in prey_of_kinds(species.prey) if not p.treat and not p.weighed]
    wanted = f"a meal of {span_words(meal, rules)}"
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


def _fits_of(prey: Prey, meal: Span, eater: Eater) -> Iterable[Fit]:
    if prey.weighed:
        return (Fit(prey, 1, 1, meal, meal),)
    if prey.insect:
        return _insect_fit(prey, meal, eater)
    counts = range(1, eater.most + 1)
    return filter(None, (_whole_prey(prey, n, meal, eater.widest_mm) for n in counts))


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


def _insect_fit(prey: Prey, meal: Span, eater: Eater) -> tuple[Fit, ...]:
    each = prey.typical_g
    low, high = max(1, math.ceil(meal[0] / each)), math.floor(meal[1] / each)
    too_wide = prey.width_mm(each) > eater.widest_mm
    too_many = low > MOST_INSECTS
    if high < low or too_many or too_wide or not is_short_enough(prey, eater.gap_mm):
        return ()
    return (Fit(prey, low, high, (each, each), (low * each, high * each)),)


def _rank(fit: Fit, middle: float, eater: Eater, ate: frozenset[str]) -> tuple[object, ...]:
    """Sorts fits: what it ate last, what it ate before, what is in stock, staples, few items.

    From three items or many insects on the class that it ate last is outgrown. `ate` are the kinds
    of food that it ate before.
    """
    prey, kinds = fit.prey, eater.species.prey
    usual = eater.eaten[0] if eater.eaten else ""
    items = 0 if prey.insect or prey.weighed else fit.count
    outgrown = items > 2 or (prey.insect and fit.count > MANY_INSECTS)
    off = 0.0 if prey.insect else round(abs(math.log(sum(fit.total_g) / 2 / middle)), 1)
    return (
        (prey.treat and prey.insect) or (prey.weighed and not prey.plant),
        prey.code != usual or outgrown,
        bool(ate) and prey.kind not in ate,
        prey.code not in eater.stocked,
        prey.treat,
        items,
        off,
        kinds.index(prey.kind) if prey.kind in kinds else 0,
        fit.count,
    )


def _kind(code: str) -> str:
    prey = known_prey(code)
    return prey.kind if prey else ""
