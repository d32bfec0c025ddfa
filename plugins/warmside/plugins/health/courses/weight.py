"""Whether an animal still weighs what its dose was worked out for."""

from __future__ import annotations

import re

PERCENT_OF_CHANGE = 10.0
"""A change from which the vet is asked whether the dose still holds; doses go by weight, so it is
weighed before each course (common practice, no source)."""
_BY_WEIGHT = re.compile(r"(/|per |a |each )\s*(100 ?)?(kg|kilo|g\b|gram)", re.IGNORECASE)


def goes_by_weight(dose: str) -> bool:
    """Whether the words of a dose name a weight of the animal: `5 mg/kg`."""
    return _BY_WEIGHT.search(dose) is not None


def change_percent(ordered_g: float, now_g: float) -> float:
    """By how much the weight has changed since the order, in percent of that; negative: lighter."""
    return 100.0 * (now_g - ordered_g) / ordered_g


def is_changed(ordered_g: float, now_g: float) -> bool:
    """Whether the vet is asked: a tenth more or less, the tenth itself included."""
    return abs(change_percent(ordered_g, now_g)) >= PERCENT_OF_CHANGE - 1e-9
