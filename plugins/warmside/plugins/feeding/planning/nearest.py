"""The food that comes nearest to a meal, where no class makes it up: one that can be bought."""

from __future__ import annotations

import math

from warmside.plugins.feeding.energy.rates import Span
from warmside.plugins.feeding.planning.fit import Eater, Fit
from warmside.plugins.feeding.prey.classes import Prey, prey_of_kinds

# Hatchling snakes take 15 to 35 % of their mass in one item: common practice, no source.
HATCHLING_PERCENT = 35.0
# A meal may come so much above what was asked for, where nothing is nearer.
OVER = 1.15


def nearest(meal: Span, eater: Eater) -> list[Fit]:
    """One food near a meal in g: whole items, a small one for a hatchling, or a piece of one.

    Empty where nothing can be cut to size (an egg), or the girth allows none.
    """
    known = [p for p in prey_of_kinds(eater.species.prey) if not (p.treat or p.weighed)]
    whole = [p for p in known if not p.insect and p.width_mm(p.mass_g[0]) <= eater.widest_mm]
    if not whole:
        return []
    middle = sum(meal) / 2
    items = [(p, n) for p in whole for n in range(1, eater.most + 1)]
    near = [(p, n) for p, n in items if n * p.typical_g <= OVER * meal[1]]
    if near:
        prey, count = min(near, key=lambda i: (abs(math.log(i[1] * i[0].typical_g / middle)), i[1]))
        return [_whole(prey, count, meal)]
    smallest = min(whole, key=lambda p: p.mass_g[0])
    most = _largest_g(meal, eater)
    if smallest.mass_g[0] <= most:
        each = (smallest.mass_g[0], min(smallest.mass_g[1], most))
        return [Fit(smallest, 1, 1, each, each)]
    return [] if smallest.nature == "egg" else [Fit(smallest, 1, 1, meal, meal, is_part=True)]


def one_item_words(fit: Fit, meal: Span, eater: Eater) -> str:
    """What is to be said of one item that is more than the usual meal of a hatchling snake."""
    if eater.species.group != "snake" or not eater.hatchling or fit.total_g[0] <= meal[1]:
        return ""
    low, high = (round(100.0 * g / eater.mass_g) for g in fit.total_g)
    share = f"{low} to {high} %" if low < high else f"{low} %"
    return (
        f"one {fit.prey.name} is {share} of its mass: more than its usual share, but the smallest "
        "that can be bought; hatchling snakes take 15 to 35 % in one item (common practice)"
    )


def _whole(prey: Prey, count: int, meal: Span) -> Fit:
    """So many items, no heavier than asked for as far as the class allows."""
    least, most = prey.mass_g
    high = min(most, max(least, OVER * meal[1] / count))
    return Fit(prey, count, count, (least, high), (least * count, high * count))


def _largest_g(meal: Span, eater: Eater) -> float:
    """The heaviest single item in g: of a hatchling snake more than its usual share."""
    if eater.species.group == "snake" and eater.hatchling:
        return max(meal[1], HATCHLING_PERCENT / 100.0 * eater.mass_g)
    return meal[1]
