"""How far one weighing may lie from the true mass: scale, gut and bladder; pure computation."""

from __future__ import annotations

from math import hypot

from warmside.plugins.weight.course.series import Weighings

BODY_NOISE = 0.015
"""Standard deviation of a weighing of an empty animal, a part of its mass: water, urates and what
is left in the gut (common practice, no source)."""
WANDER = 0.01
"""Standard deviation of the true mass of a grown animal about its level, a part of it, over weeks
(common practice, no source)."""
_EVEN = 12**0.5  # a step s rounds with a standard deviation of s / sqrt 12


def noise_of(those: Weighings) -> float:
    """Standard deviation of the last weighing, a part of its mass, by body and scale.

    A kitchen scale that shows 5 g is worth little for a gecko of 60 g, and says so by itself.
    """
    return hypot(BODY_NOISE, those.step_g / _EVEN / those.masses_g[-1])
