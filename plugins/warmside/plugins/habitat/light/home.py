"""Where species live wild, as latitudes, for the length of the day there."""

from __future__ import annotations

from functools import cache

from msgspec import Struct

from warmside.api import Source, SourcedRow, sourced_rows


class Home(Struct, frozen=True):
    """The southern and the northern end of a range in degrees, and the places that they are."""

    south: float
    north: float
    where: str
    source: Source

    @property
    def middle(self) -> float:
        """The latitude half way."""
        return (self.south + self.north) / 2


def home_of(scientific: str) -> Home | None:
    """The home of a species, also of a subspecies of it; None where none ships."""
    known = _homes()
    return known.get(scientific) or known.get(" ".join(scientific.split()[:2]))


@cache
def _homes() -> dict[str, Home]:
    rows = sourced_rows("warmside.plugins.habitat", "homes", "home")
    return {r["scientific"]: _home(r) for r in rows}


def _home(row: SourcedRow) -> Home:
    south, north = row["latitude"]
    return Home(south, north, row["where"], row.source)
