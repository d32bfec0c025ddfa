"""Kinship of animals from the record."""

from __future__ import annotations

from typing import NamedTuple

from warmside.api import Animal, Book
from warmside.plugins.lineage.kinship.inbreeding import inbreeding
from warmside.plugins.lineage.kinship.paths import Path, paths
from warmside.plugins.lineage.kinship.pedigree import Pedigree
from warmside.plugins.lineage.kinship.uncertain import (
    Kinship,
    inbreeding_of,
    kinship_of,
    ways,
)
from warmside.plugins.lineage.reading.kin import children

MOST_PATHS = 12


class Related(NamedTuple):
    """How two animals are related: the likeliest pedigree with its paths, and the coefficient.

    `strangers` is how many parents of the ancestors are not known, founders left out.
    """

    kinship: Kinship
    known: Pedigree
    paths: list[Path]
    strangers: int


def related(book: Book, one: Animal, other: Animal) -> Related:
    """The kinship of two animals, which is the inbreeding of their planned young."""
    found = ways(children(book, [one.id, other.id]))
    known = max(found, key=lambda w: w.chance).known
    places = known.place[one.id], known.place[other.id]
    heaviest = paths(known, inbreeding(known), *places, MOST_PATHS)
    return Related(kinship_of(found, one.id, other.id), known, heaviest, half_known(known))


def own_inbreeding(book: Book, animal: Animal) -> Related:
    """How inbred an animal is; its parents' kinship, where both are known."""
    found = ways(children(book, [animal.id]))
    known = max(found, key=lambda w: w.chance).known
    return Related(inbreeding_of(found, animal.id), known, [], half_known(known))


def half_known(known: Pedigree) -> int:
    """How many animals have one parent on record and the other not."""
    return sum((d < 0) != (s < 0) for d, s in zip(known.dam, known.sire, strict=True))
