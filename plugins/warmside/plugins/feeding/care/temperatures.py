"""The temperatures at which an animal really lives, from what was read in its enclosure."""

from __future__ import annotations

from collections.abc import Sequence

from warmside.plugins.feeding.care.species import Species
from warmside.plugins.feeding.energy.rates import COLDEST_C, Day, mixed_day


def own_day(
    species: Species,
    warm_c: Sequence[float],
    cool_c: Sequence[float],
    warm_hours: float | None = None,
) -> Day | None:
    """A day on the warm and the cool side by readings in °C; None without a reading of each.

    The hours on the warm side are the keeper's, else the species' day. Common practice, no source:
    no animal stays hotter than its kind likes while it can choose, so readings above the upper
    end of the species' day count as that.
    """
    if not warm_c or not cool_c:
        return None
    hours = species.day_hours if warm_hours is None else warm_hours
    return mixed_day(_span(warm_c, species), _span(cool_c, species), hours)


def _span(readings: Sequence[float], species: Species) -> tuple[float, float]:
    held = [min(max(r, COLDEST_C), species.day_c[1]) for r in readings]
    return min(held), max(held)
