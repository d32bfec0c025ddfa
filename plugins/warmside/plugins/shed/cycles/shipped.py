"""What the plugin ships of cycles: usual days from stage to stage, and who eats its slough."""

from __future__ import annotations

import functools
from collections.abc import Iterable

from msgspec import Struct

from warmside.api import Source, sourced_rows

PACKAGE = "warmside.plugins.shed"


class Window(Struct, frozen=True):
    """The fewest and the most days that are usual, and who says so."""

    low_days: int
    high_days: int
    source: Source


@functools.cache
def window(name: str) -> Window:
    """The window of that name, such as `opaque to shed`."""
    row = next(r for r in sourced_rows(PACKAGE, "windows") if r["name"] == name)
    return Window(row["low_days"], row["high_days"], row.source)


def eats_slough(taxa: Iterable[str]) -> bool:
    """Whether any of the names (family, genus or species, in Latin) is of a slough eater."""
    return any(name.split()[0].lower() in _slough_eaters() for name in taxa if name.strip())


@functools.cache
def _slough_eaters() -> frozenset[str]:
    rows = sourced_rows(PACKAGE, "slough_eaters")
    return frozenset(t.lower() for row in rows for t in row["taxa"])
