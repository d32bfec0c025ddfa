"""What to ask a keeper about a meal before it is recorded."""

from __future__ import annotations

import math
from datetime import date

from msgspec import Struct
from msgspec.structs import replace

from warmside.api import Unit, format_quantity, quoted
from warmside.plugins.feeding.care.diets import Stage, codes_of
from warmside.plugins.feeding.care.rules import Rules
from warmside.plugins.feeding.care.species import Species
from warmside.plugins.feeding.energy.rates import Span, check_mass
from warmside.plugins.feeding.planning.share import meal_share
from warmside.plugins.feeding.prey.classes import Prey, classes_meant

# Studies of digestion in snakes offered up to 45 or 50 % of body mass; more is not feeding.
MOST_PERCENT = 50.0
# Common practice, no source: so many times the usual share, from a fifth of the animal on, is odd.
TIMES_USUAL, LEAST_ODD = 3.0, 20.0
# So many rodents or birds in one meal are more than anybody means to feed.
MOST_ITEMS = 10
ANIMAL = ("rodent", "bird", "insect", "worm", "snail", "fish")
MAP_IT = "map the word once: warmside feeding word set WORD CLASS"


class Meal(Struct, frozen=True):
    """A meal to be recorded: `mass_g` is of all of it, None where it was not weighed."""

    item: str
    count: int = 1
    mass_g: float | None = None


def questions(
    meal: Meal,
    mass_g: float | None,
    species: Species | None,
    girth_mm: float | None,
    rules: Rules,
    stage: Stage | None = None,
) -> tuple[str, ...]:
    """Reasons why this meal needs the keeper's word; empty when there are none.

    A word that is no food or may be several, a food that its species does not eat, too many or too
    much at once, and prey wider than the width rule.
    """
    meant = classes_meant(meal.item)
    if len({p.kind for p in meant}) != 1:
        return _unknown(meal.item, meant, species)
    prey = _least(meant, meal.item)
    each = meal.mass_g / meal.count if meal.mass_g else prey.typical_g
    asked = (
        _not_eaten(prey, species),
        _many(prey, meal.count),
        _heavy(prey, meal, mass_g, _usual_percent(prey, mass_g, stage, species), rules),
        _wide(prey, each, species, girth_mm, rules),
    )
    return tuple(q for q in asked if q)


def fed_cold(since: date, eaten: bool) -> tuple[str, ...]:
    """The question about a meal that was eaten while its eater is cooled since a day."""
    if not eaten:
        return ()
    return (f"cooled for winter since {since}: food lies in a cold gut and spoils; was it eaten",)


def _least(meant: tuple[Prey, ...], item: str) -> Prey:
    """What was meant; of several classes of one kind the lightest: a mouse is a mouse."""
    if len(meant) == 1:
        return meant[0]
    return replace(min(meant, key=lambda p: p.typical_g), name=item.strip())


def _unknown(item: str, meant: tuple[Prey, ...], species: Species | None) -> tuple[str, ...]:
    if species and item.strip().lower() in {p.name for p in species.diet.parts}:
        return ()
    said = quoted(item)
    if meant:
        names = ", ".join(p.code for p in meant)
        return (f"{said!r} may be several foods; write which: {names}",)
    number, _, food = item.strip().partition(" ")
    if number.isdecimal() and classes_meant(food):
        return (f"{said!r} is no food that is known here; write {number} x {food}",)
    return (f"{said!r} is no food that is known here; write its class, or {MAP_IT}",)


def _not_eaten(prey: Prey, species: Species | None) -> str:
    """For eaters of plants or of eggs alone, where other food does harm."""
    if species is None or not species.diet.parts:
        return ""
    only_plants = not species.diet.has(*ANIMAL) and prey.nature in ANIMAL
    only_eggs = not species.diet.has(*ANIMAL, "plant", "prepared") or species.diet.name == "eggs"
    if only_plants and not species.diet.has("egg"):
        return f"{prey.name} for {species.common}, which eats {species.diet.words}"
    if only_eggs and species.diet.has("egg") and prey.nature != "egg":
        return f"{prey.name} for {species.common}, which eats {species.diet.words}"
    return ""


def _many(prey: Prey, count: int) -> str:
    return f"{count} × {prey.name} in one meal" if prey.vertebrate and count > MOST_ITEMS else ""


def _heavy(prey: Prey, meal: Meal, mass_g: float | None, usual: Span | None, rules: Rules) -> str:
    if mass_g is None or (prey.weighed and not meal.mass_g):
        return ""
    meal_g = meal.mass_g or meal.count * prey.typical_g
    told, animal = rules.grams(meal_g, None), rules.grams(mass_g, None)
    share = meal_g / check_mass(mass_g) * 100.0
    if share > 100.0:
        return f"a meal of {told} is heavier than the animal ({animal})"
    if usual is not None and share > max(LEAST_ODD, TIMES_USUAL * usual[1]):
        span = f"{usual[0]:.2g} to {usual[1]:.2g} %"
        return f"a meal of {told} is {share:.0f} % of the animal ({animal}); usual are {span}"
    if share > MOST_PERCENT:
        return f"a meal of {told} is {share:.0f} % of the animal ({animal})"
    return ""


def _usual_percent(
    prey: Prey, mass_g: float | None, stage: Stage | None, species: Species | None
) -> Span | None:
    if species is None or mass_g is None:
        return None
    part = next((p for p in species.diet.parts if prey.code in codes_of(p.foods)), None)
    sized = part is not None and part.share(stage) is not None
    return meal_share(species.with_part(part), mass_g, stage) if part and sized else None


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
