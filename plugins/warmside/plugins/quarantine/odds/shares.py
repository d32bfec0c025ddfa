"""What may stand for a share, a target and a count of tests."""

from __future__ import annotations

import math

from warmside.api import BadInput

MOST_TESTS = 1_000_000


def share(name: str, value: float, *, zero: bool = True) -> float:
    """The value if it is a share of 0 to 1 (`zero` False: above 0); raises BadInput otherwise."""
    if isinstance(value, bool) or not isinstance(value, int | float) or not math.isfinite(value):
        raise BadInput(f"{name} is a number between 0 and 1, not {value!r}")
    if value < 0 or value > 1:
        hint = "; give 5 % as 0.05" if 1 < value <= 100 else ""
        raise BadInput(f"{name} is between 0 and 1, not {value:g}{hint}")
    if value == 0 and not zero:
        raise BadInput(f"{name} is above 0, not 0; a test that never tells cannot be counted on")
    return float(value)


def check_range(name: str, low: float, high: float) -> None:
    """Raise BadInput unless both are shares above 0 in rising order."""
    if share(name, low, zero=False) > share(name, high, zero=False):
        raise BadInput(f"{name} range {low:g} to {high:g} is upside down; swap the two")


def check_target(target: float) -> None:
    """Raise BadInput unless the target is between 0 and 1, both excluded."""
    if share("target", target) in (0, 1):
        raise BadInput(
            f"target is above 0 and below 1, not {target:g}; no test gives certainty, try 0.95"
        )


def whole(name: str, value: int, least: int = 0) -> int:
    """The value if it is a whole number of at least `least`; raises BadInput otherwise."""
    if isinstance(value, bool) or not isinstance(value, int):
        raise BadInput(f"{name} is a whole number, not {value!r}")
    if not least <= value <= MOST_TESTS:
        raise BadInput(f"{name} is between {least} and {MOST_TESTS}, not {value}")
    return value
