"""What other plugins may ask of an animal's mass."""

from __future__ import annotations

from datetime import date

from warmside.api import Ask, Estimate
from warmside.plugins.weight.reading.standing import standing, standing_now


def mass_on(ask: Ask, animal_id: int, on: date) -> Estimate | None:
    """The mass on a day, where weighings reach as far as that day."""
    return standing_now(ask, animal_id, on).expected_within_reach


def adult_mass(ask: Ask, animal_id: int, on: date) -> Estimate | None:
    """The mass at the end of growth, where the animal's own growth curve fixes it."""
    from warmside.plugins.weight.reading.growth import grown_if_any  # late: few rounds ask

    grown = grown_if_any(ask, standing(ask, ask.book.animals[animal_id], on))
    return grown.adult if grown else None
