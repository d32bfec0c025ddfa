"""How surely a sample of a group finds an infection that is there (group sensitivity).

Unknown or large group: SeP = 1 - (1 - p·Se)^n, the binomial form. Group of N: MacDiarmid 1988,
SeP = 1 - (1 - n·Se/N)^d with d = max(1, round(N·p)) infected. Both take the specificity as 1: a
positive is confirmed before it counts (Martin, Cameron & Greiner 2007 Prev Vet Med 79).
"""

from __future__ import annotations

import math

from warmside.api import BadInput, Mark, Source
from warmside.plugins.quarantine.odds.shares import MOST_TESTS, check_target, share, whole

GROUP = Source("MacDiarmid 1988; Martin, Cameron & Greiner 2007 Prev Vet Med 79", Mark.PUBLISHED)


def population_sensitivity(
    sampled: int, prevalence: float, sensitivity: float, population: int | None = None
) -> float:
    """The chance that at least one of `sampled` animals tests positive if the group is infected.

    `prevalence` is the least share of infected animals worth finding. Raises BadInput when more
    animals are sampled than there are.
    """
    _check(prevalence, sensitivity, population)
    whole("sampled", sampled)
    if population is None:
        return _hit_at_least_once(prevalence * sensitivity, sampled)
    if sampled > population:
        raise BadInput(f"sampled is {sampled}, more than the {population} in the group")
    infected = infected_animals(population, prevalence)
    return _hit_at_least_once(sampled * sensitivity / population, infected)


def sample_size(
    target: float, prevalence: float, sensitivity: float, population: int | None = None
) -> int | None:
    """The fewest animals to sample so that the group sensitivity reaches `target`.

    None where testing every animal once is not enough, or more than a million would be needed.
    """
    check_target(target)
    _check(prevalence, sensitivity, population)
    if population is None:
        hit = prevalence * sensitivity
        size = 1 if hit == 1 else math.ceil(math.log1p(-target) / math.log1p(-hit))
        most = MOST_TESTS
    else:
        root = (1 - target) ** (1 / infected_animals(population, prevalence))
        size, most = math.ceil(population / sensitivity * (1 - root)), population
    return _exact(size, most, target, prevalence, sensitivity, population)


def infected_animals(population: int, prevalence: float) -> int:
    """How many infected animals the design prevalence means, at least one."""
    return max(1, round(population * prevalence))


def _check(prevalence: float, sensitivity: float, population: int | None) -> None:
    if share("prevalence", prevalence) == 0:
        raise BadInput("prevalence is above 0, not 0; give the least share worth finding")
    share("sensitivity", sensitivity, zero=False)
    if population is not None:
        whole("population", population, least=1)


def _hit_at_least_once(chance: float, tries: int) -> float:
    if tries == 0:
        return 0.0
    return 1.0 if chance >= 1 else -math.expm1(tries * math.log1p(-chance))


def _exact(
    size: int, most: int, target: float, prevalence: float, se: float, population: int | None
) -> int | None:
    """The size, put right where rounding moved it by one; None if beyond `most`."""

    def reached(n: int) -> bool:
        return population_sensitivity(n, prevalence, se, population) >= target

    size = min(size, most)
    while size > 1 and reached(size - 1):
        size -= 1
    while size <= most and not reached(size):
        size += 1
    return size if size <= most else None
