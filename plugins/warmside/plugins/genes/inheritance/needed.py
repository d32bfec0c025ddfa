"""How many young it takes to be sure."""

from __future__ import annotations

import math

from warmside.plugins.genes.inheritance.pairing import Looks, Offspring


def until_seen(pair: Offspring, look: Looks, sure: float = 0.95, most: int = 10_000) -> int | None:
    """The least number of young of which at least one looks so with that chance; None if never.

    Where the parents' genotypes are uncertain the chance may never be reached.
    """
    ever = math.fsum(w.chance for w in pair.ways if w.young.get(look, 0.0) > 0)
    if ever < sure or pair.at_least_one(look, most) < sure:
        return None
    low, high = 1, most
    while low < high:
        middle = (low + high) // 2
        low, high = (low, middle) if pair.at_least_one(look, middle) >= sure else (middle + 1, high)
    return low
