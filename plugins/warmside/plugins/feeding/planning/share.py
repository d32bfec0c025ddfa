"""What share of its mass a meal is: it falls smoothly from a young animal's to a grown one's."""

from __future__ import annotations

import math
from collections.abc import Iterator
from itertools import pairwise

from warmside.plugins.feeding.care.diets import Stage
from warmside.plugins.feeding.care.species import Species
from warmside.plugins.feeding.energy.rates import Span

# The grown share holds from so many times the mass of an adult on, the hatchling's up to so much of
# a juvenile's; our own choice, so that no stage begins with a step.
GROWN, HATCHED = 1.25, 0.6
ORDER = tuple(Stage)


def meal_share(species: Species, mass_g: float, stage: Stage | None = None) -> Span:
    """Percent of body mass from low to high, at a mass in g.

    Between the middles of two stages it moves with the logarithm of the mass. An animal that is
    older than its mass says (`stage`) eats as one of its age. Where no mass tells its stage, all
    shares that there are.
    """
    if not species.has_stages:
        return _whole(species, stage)
    if stage is not None and _is_older(stage, species, mass_g):
        return species.meal_percent[stage]
    return _at(anchors(species), mass_g)


def meal_grams(species: Species, mass_g: float, stage: Stage | None = None) -> Span:
    """A meal in g from low to high; more mass never means a smaller meal."""
    if not species.has_stages or (stage and _is_older(stage, species, mass_g)):
        low, high = _whole(species, stage)
        return low / 100.0 * mass_g, high / 100.0 * mass_g
    known = anchors(species)
    return _heaviest(known, mass_g, 0), _heaviest(known, mass_g, 1)


def anchors(species: Species) -> tuple[tuple[float, Span], ...]:
    """The masses in g at which the shares of the stages hold, lightest first."""
    juvenile, subadult, adult = species.from_g
    at = (HATCHED * juvenile, math.sqrt(juvenile * subadult), math.sqrt(subadult * adult))
    shares = species.meal_percent
    return tuple(
        (g, shares[s]) for s, g in zip(ORDER, (*at, GROWN * adult), strict=True) if s in shares
    )


def _heaviest(known: tuple[tuple[float, Span], ...], mass_g: float, end: int) -> float:
    """The greatest meal in g, by the low (0) or high (1) end of the share, up to a mass in g.

    Where the share falls faster than the mass grows, the meal is greatest before the next anchor.
    """
    masses = (mass_g, *(g for g, _ in known), *_turns(known, end))
    return max(_at(known, g)[end] / 100.0 * g for g in masses if g <= mass_g)


def _turns(known: tuple[tuple[float, Span], ...], end: int) -> Iterator[float]:
    """The masses in g between two anchors from which on share times mass would fall.

    The share is s + k log(m / m0), so share times mass turns where the share equals -k.
    """
    for (low_g, low), (high_g, high) in pairwise(known):
        slope = (high[end] - low[end]) / math.log(high_g / low_g)
        if low[end] > -slope > high[end]:
            yield low_g * math.exp((-slope - low[end]) / slope)


def _whole(species: Species, stage: Stage | None) -> Span:
    share = species.part.share(stage)
    assert share is not None
    return share


def _is_older(stage: Stage, species: Species, mass_g: float) -> bool:
    """It is lighter than others are when that stage begins."""
    return mass_g < dict(species.starts_g)[stage]


def _at(known: tuple[tuple[float, Span], ...], mass_g: float) -> Span:
    if mass_g <= known[0][0]:
        return known[0][1]
    for (low_g, low), (high_g, high) in pairwise(known):
        if mass_g <= high_g:
            way = math.log(mass_g / low_g) / math.log(high_g / low_g)
            return low[0] + way * (high[0] - low[0]), low[1] + way * (high[1] - low[1])
    return known[-1][1]
