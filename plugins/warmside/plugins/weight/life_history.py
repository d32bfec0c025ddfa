"""Species means of adult and hatchling mass: orientation, never percentiles."""

from __future__ import annotations

import functools
import tomllib
from dataclasses import dataclass
from importlib.resources import files

from warmside.api import Mark, Source
from warmside.plugins.weight.checks import Stage

NO_OPEN_CURVE = (
    "no open age-mass centile curve for the common species was found; percentiles need a reference "
    "of your own, built from weighings or imported with its source"
)
DEFAULT_MATURITY_DAYS = 730.0
"""Taken where a species has no row (common practice, no source)."""


@dataclass(frozen=True, slots=True)
class LifeHistory:
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
    text = (files("warmside.plugins.weight") / "data" / "life_history.toml").read_text("utf-8")
    return {row["species"].lower(): _row(row) for row in tomllib.loads(text)["row"]}


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


def _row(row: dict[str, object]) -> LifeHistory:
    def number(key: str) -> float | None:
        value = row.get(key)
        return float(value) if isinstance(value, int | float) else None

    return LifeHistory(
        str(row["species"]),
        number("adult_g"),
        number("hatchling_g"),
        number("maturity_days"),
        str(row.get("note", "")),
        Source(str(row["source"]), Mark(str(row["mark"]))),
    )
