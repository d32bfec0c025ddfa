"""For how many days a meal still weighs in the gut, by the kind of animal."""

from __future__ import annotations

from warmside.plugins.weight.course.limits import Limits

SMALL_LIZARDS = frozenset({"gecko", "agama", "skink", "chameleon", "lizard"})
"""Groups whose food passes in a day or two; iguanas and monitors eat leaves or large prey."""


def digestion_days(group: str, limits: Limits) -> float:
    """Days until a meal no longer weighs in the gut of an animal of that group."""
    return limits.lizard_digestion_days if group in SMALL_LIZARDS else limits.digestion_days
