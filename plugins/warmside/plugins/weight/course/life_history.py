"""Species means of adult and hatchling mass: orientation, never percentiles."""

from __future__ import annotations

import functools

from msgspec import Struct

from warmside.api import Source, SourcedRow, sourced_rows
from warmside.plugins.weight.course.checks import Stage

NO_OPEN_CURVE = (
    "no open age-mass centile curve for the common species was found; percentiles need a reference "
    "of your own, built from weighings or imported with its source"
)
DEFAULT_MATURITY_DAYS = 730.0
"""Taken where a species has no row (common practice, no source)."""


class LifeHistory(Struct, frozen=True):
    """Means for a species; None where the source has none. Masses in g, maturity in days."""

    species: str
    adult_g: float | None
    hatchling_g: float | None
    maturity_days: float | None
    note: str
    source: Source


@functools.cache
def life_histories() -> dict[str, LifeHistory]:
    """The rows of data/life_history.toml by scientific name in lower case."""
    rows = sourced_rows("warmside.plugins.weight", "life_history")
    return {row["species"].lower(): _row(row) for row in rows}


def life_history(species: str) -> LifeHistory | None:
    """The row of a species by its scientific name, or None."""
    return life_histories().get(species.strip().lower())


def stage_at(species: str, age_days: float | None) -> Stage:
    """Juvenile before the species' age of maturity, adult from it; unknown without an age."""
    if age_days is None:
        return Stage.UNKNOWN
    row = life_history(species)
    mature = (row and row.maturity_days) or DEFAULT_MATURITY_DAYS
    return Stage.ADULT if age_days >= mature else Stage.JUVENILE


def _row(row: SourcedRow) -> LifeHistory:
    return LifeHistory(
        row["species"],
        row.get("adult_g"),
        row.get("hatchling_g"),
        row.get("maturity_days"),
        row.get("note", ""),
        row.source,
    )
