"""How far one weighing may lie from the true mass: scale, gut and bladder; pure computation."""

from __future__ import annotations

from collections.abc import Sequence
from math import hypot

from warmside.plugins.weight.course.series import Weighings

BODY_NOISE = 0.015
"""Standard deviation of a weighing of an empty animal, a part of its mass: water, urates and what
is left in the gut (common practice, no source)."""

_STEPS_G = (100.0, 50.0, 20.0, 10.0, 5.0, 2.0, 1.0)
_LEAST_TO_TELL = 4
_EVEN = 12**0.5  # a step s rounds with a standard deviation of s / sqrt 12


def scale_step(masses_g: Sequence[float]) -> float:
    """The step of the scale in g, where all readings are multiples of it; 0 where none is seen."""
    if len(masses_g) < _LEAST_TO_TELL:
        return 0.0
    return next((s for s in _STEPS_G if all(m % s == 0 for m in masses_g)), 0.0)


def noise_of(those: Weighings) -> float:
    """Standard deviation of the last weighing, a part of its mass, by body and scale.

    A kitchen scale that shows 5 g is worth little for a gecko of 60 g, and says so by itself.
    """
    return hypot(BODY_NOISE, scale_step(those.masses_g) / _EVEN / those.masses_g[-1])
