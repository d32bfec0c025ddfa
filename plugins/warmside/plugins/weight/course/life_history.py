"""Mean mass of hatchlings by species: orientation, never percentiles."""

from __future__ import annotations

import functools

from msgspec import Struct

from warmside.api import Source, SourcedRow, sourced_rows

NO_OPEN_CURVE = (
    "no open age-mass centile curve for the common species was found; percentiles need a reference "
    "of your own, built from weighings or imported with its source"
)


class LifeHistory(Struct, frozen=True):
    """The mean of a species' hatchlings in g."""

    species: str
    hatchling_g: float
    source: Source


@functools.cache
def life_histories() -> dict[str, LifeHistory]:
    """The rows of data/life_history.toml by scientific name in lower case."""
    rows = sourced_rows("warmside.plugins.weight", "life_history")
    return {row["species"].lower(): _row(row) for row in rows}


def life_history(species: str) -> LifeHistory | None:
    """The row of a species by its scientific name, or None."""
    return life_histories().get(species.strip().lower())


def _row(row: SourcedRow) -> LifeHistory:
    return LifeHistory(row["species"], float(row["hatchling_g"]), row.source)
