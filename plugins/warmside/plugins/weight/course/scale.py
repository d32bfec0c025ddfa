"""The scale that an animal is weighed on, by what it shows; pure computation."""

from __future__ import annotations

from collections.abc import Sequence

_STEPS_G = (100.0, 50.0, 20.0, 10.0, 5.0, 2.0, 1.0)
_LEAST_TO_TELL = 4


def scale_step(masses_g: Sequence[float]) -> float:
    """The step of the scale in g, where all readings are multiples of it; 0 where none is seen.

    Of readings as they were typed: less a meal they are multiples of nothing.
    """
    if len(masses_g) < _LEAST_TO_TELL:
        return 0.0
    return next((s for s in _STEPS_G if all(m % s == 0 for m in masses_g)), 0.0)
