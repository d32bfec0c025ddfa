"""Days from one stage to the next, from the plugin's reference rows."""

from __future__ import annotations

import functools
from dataclasses import dataclass

from warmside.api import Source
from warmside.plugins.shed.reference import rows, source_of


@dataclass(frozen=True, slots=True)
class Window:
    """The fewest and the most days that are usual, and who says so."""

    low_days: int
    high_days: int
    source: Source


@functools.cache
def window(name: str) -> Window:
    """The window of that name, such as `opaque to shed`."""
    row = next(r for r in rows("windows") if r["name"] == name)
    return Window(row["low_days"], row["high_days"], source_of(row))
