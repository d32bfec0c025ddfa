"""What other plugins may ask of an animal's mass."""

from __future__ import annotations

from datetime import date

from warmside.api import OWN_RECORDS, Ask, Basis, Estimate, Unit
from warmside.plugins.weight.loss.judging import lost
from warmside.plugins.weight.reading.standing import standing, standing_now


def mass_on(ask: Ask, animal_id: int, on: date) -> Estimate | None:
    """The mass on a day, where weighings reach as far as that day."""
    return standing_now(ask, animal_id, on).expected_within_reach


def adult_mass(ask: Ask, animal_id: int, on: date) -> Estimate | None:
    """The mass at the end of growth, where the animal's own growth curve fixes it."""
    from warmside.plugins.weight.reading.growth import grown_if_any  # late: few rounds ask

    grown = grown_if_any(ask, standing(ask, ask.book.animals[animal_id], on))
    return grown.adult if grown else None


def weight_loss(ask: Ask, animal_id: int, on: date) -> Estimate | None:
    """How far below its usual mass it is, in percent, 0 where it is not; None where none is known.

    Who gets this answer need not judge the loss: the plugin's own finding does.
    """
    found = lost(standing_now(ask, animal_id, on).weights.course)
    if found is None:
        return None
    basis = Basis("the last weighing against its usual mass", OWN_RECORDS, found.events)
    return Estimate(100 * found.part, 100 * found.low, 100 * found.high, Unit.PERCENT, basis)
