"""The shipped files about species, one each: found by scientific name, read when asked for."""

from __future__ import annotations

import re
from collections.abc import Iterator
from functools import cache
from importlib.resources import files

import tomli

from warmside.core.figures.sourced import SourcedRow

_NAME = re.compile("[A-Z][a-z]+( [a-z]+){1,2}")
_FOLDER = files("warmside.core.record.data") / "species"


@cache
def species_row(scientific: str) -> SourcedRow | None:
    """The row of a species, of the species of a subspecies, or of the newer name; else None.

    A row that is `like` another has that one's figures beside its own.
    """
    words = scientific.split()
    name = " ".join([w.lower() for w in words]).capitalize()
    for tried in dict.fromkeys((name, " ".join(name.split()[:2]))):
        found = _read(tried) or _read(_synonyms().get(tried, ""))
        if found is not None:
            return found
    return None


def all_species_rows() -> Iterator[SourcedRow]:
    """The row of every shipped species, by scientific name."""
    for file in sorted(_FOLDER.iterdir(), key=lambda f: f.name):
        row = species_row(file.name.removesuffix(".toml").replace("_", " "))
        assert row is not None
        yield row


def _read(name: str) -> SourcedRow | None:
    if not _NAME.fullmatch(name):
        return None
    try:
        text = (_FOLDER / f"{name.lower().replace(' ', '_')}.toml").read_text("utf-8")
    except FileNotFoundError:
        return None
    own = SourcedRow(tomli.loads(text))
    base = species_row(own["like"]) if "like" in own else None
    return SourcedRow({**_without_own_sexes(base, own), **own}) if base else own


def _without_own_sexes(base: SourcedRow, own: SourcedRow) -> SourcedRow:
    """The base without the figures that the own row gives for other sexes."""
    given = {part for part in ("adult_g", "stage_g") if any(k.startswith(part) for k in own)}
    return SourcedRow({k: v for k, v in base.items() if not k.startswith(tuple(given))})


@cache
def _synonyms() -> dict[str, str]:
    return tomli.loads(_FOLDER.parent.joinpath("synonyms.toml").read_text("utf-8"))  # type: ignore
