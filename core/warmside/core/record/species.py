"""The species that ship with the core, and finding one by either name."""

from __future__ import annotations

from collections.abc import Iterable
from functools import cache
from importlib.resources import files
from typing import NamedTuple

import tomli

from warmside.core.record.entities import Species
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
    """A row of the shipped list."""

    scientific: str
    common: str
    group: str
    sex_system: str
    source: str
    mark: str


@cache
def shipped() -> tuple[ShippedSpecies, ...]:
    """The species that every new collection starts with."""
    text = files("warmside.core.record.data").joinpath("species.toml").read_text(encoding="utf-8")
    return tuple(ShippedSpecies(**row) for row in tomli.loads(text)["species"])


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
