"""What to ask a keeper about a meal before it is recorded."""

from __future__ import annotations

import math

from warmside.api import BadInput, Unit, format_quantity
from warmside.plugins.feeding.care.rules import Rules
from warmside.plugins.feeding.care.species import Species
from warmside.plugins.feeding.energy.rates import check_mass
from warmside.plugins.feeding.meals.records import Offer
from warmside.plugins.feeding.prey.classes import Prey, prey_named

# Studies of digestion in snakes offered up to 45 or 50 % of body mass; more is not feeding.
MOST_PERCENT = 50.0


def check_offer(offer: Offer) -> Prey:
    """The prey class of an offer; BadInput for a class, count or mass that cannot be."""
    prey = prey_named(offer.prey)
    if offer.count < 1:
        raise BadInput(f"{offer.count} × {prey.name}; give a count of 1 or more")
    if not 0 <= offer.eaten <= offer.count:
        raise BadInput(f"{offer.eaten:g} eaten of {offer.count} offered; give 0 to {offer.count}")
    if offer.each_g is not None and not (math.isfinite(offer.each_g) and offer.each_g > 0):
        raise BadInput(f"{offer.each_g:g} g for one {prey.name}; weigh one and give its mass")
    return prey


def questions(
    offer: Offer,
    mass_g: float | None,
    species: Species | None,
    girth_mm: float | None,
    rules: Rules,
) -> tuple[str, ...]:
    """Reasons why this meal needs the keeper's word; empty when there are none.

    A meal heavier than the animal or over half its mass, and prey wider than the width rule.
    """
    prey = check_offer(offer)
    each = offer.each_g or prey.typical_g
    asked = [_heavy(offer.count * each, mass_g, rules), _wide(prey, each, species, girth_mm, rules)]
    return tuple(q for q in asked if q)


def _heavy(meal_g: float, mass_g: float | None, rules: Rules) -> str:
    if mass_g is None:
        return ""
    meal, animal = rules.grams(meal_g, None), rules.grams(mass_g, None)
    share = meal_g / check_mass(mass_g) * 100.0
    if share > 100.0:
        return f"a meal of {meal} is heavier than the animal ({animal})"
    if share > MOST_PERCENT:
        return f"a meal of {meal} is {share:.0f} % of the animal ({animal})"
    return ""


def _wide(
    prey: Prey, each_g: float, species: Species | None, girth_mm: float | None, rules: Rules
) -> str:
    if species is None or girth_mm is None or prey.weighed or prey.nature == "egg":
        return ""
    body, width = girth_mm / math.pi, prey.width_mm(each_g)
    if width <= species.width_ratio[1] * body:
        return ""
    wide, own = (format_quantity(x, Unit.LENGTH, rules.display, digits=2) for x in (width, body))
    return f"{prey.name} about {wide} wide, the animal {own} by its girth"
