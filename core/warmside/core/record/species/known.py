"""The species that ship with the core, and finding one by either name."""

from __future__ import annotations

from collections.abc import Iterable
from functools import cache
from typing import NamedTuple

from warmside.core.figures.sourced import SourcedRow
from warmside.core.record.entities import Species
from warmside.core.record.species.files import all_species_rows
from warmside.core.values.errors import NotFound
from warmside.core.values.hints import near_miss

GROUPS = (
    "python",
    "boa",
    "colubrid",
    "viper",
    "elapid",
    "gecko",
    "agama",
    "skink",
    "monitor",
    "chameleon",
    "iguana",
    "lizard",
    "tortoise",
    "turtle",
    "other",
)


class ShippedSpecies(NamedTuple):
    """A shipped species; `source` and `mark` are those of its sex determination."""

    scientific: str
    common: str
    group: str
    sex_system: str
    source: str
    mark: str


@cache
def shipped() -> tuple[ShippedSpecies, ...]:
    """The species that every new collection starts with, by scientific name."""
    return tuple(_listed(row) for row in all_species_rows())


def _listed(row: SourcedRow) -> ShippedSpecies:
    return ShippedSpecies(**{name: row[name] for name in ShippedSpecies._fields})


def shipped_species_named(name: str) -> Species:
    """The shipped species of that name, without a collection; its id is 0."""
    rows = (Species(0, s.scientific, s.common, s.group, s.sex_system) for s in shipped())
    return find(name, rows)


def find(name: str, known: Iterable[Species]) -> Species:
    """The species of that scientific or common name, or whose name alone contains it."""
    species = list(known)
    folded = name.strip().casefold()
    exact = [s for s in species if folded in (s.scientific.casefold(), s.common.casefold())]
    if len(exact) == 1:
        return exact[0]
    partly = [s for s in species if folded in f"{s.scientific} / {s.common}".casefold()]
    if folded and len(partly) == 1:
        return partly[0]
    if folded and partly:
        names = ", ".join(s.scientific for s in partly[:6])
        raise NotFound(f"{name!r} fits several species: {names}; write one in full")
    hint = near_miss(name, [n for s in species for n in (s.scientific, s.common)])
    raise NotFound(
        f"there is no species {name!r}{hint}; list them: warmside species list, "
        "or add it: warmside species add"
    )
