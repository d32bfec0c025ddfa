"""The catalogues that ship with the plugin."""

from __future__ import annotations

from collections.abc import Mapping
from functools import cache

from warmside.api import NotFound, SourcedRow, sourced_rows
from warmside.plugins.genes.inheritance.loci import Shows
from warmside.plugins.genes.traits.catalogue import (
    Catalogue,
    Pair,
    Trait,
    check_recombination,
    sorted_pair,
)

PACKAGE = "warmside.plugins.genes"
FILES = {
    "Correlophus ciliatus": "crested_gecko",
    "Eublepharis macularius": "leopard_gecko",
    "Heterodon nasicus": "western_hognose",
    "Boa imperator": "common_boa",
    "Lampropeltis californiae": "california_kingsnake",
    "Morelia spilota": "carpet_python",
    "Pantherophis guttatus": "corn_snake",
    "Pogona vitticeps": "bearded_dragon",
    "Python regius": "ball_python",
}
"""The file of each species, without its ending."""


@cache
def shipped_traits(species: str) -> tuple[Trait, ...]:
    """The traits of a species by its scientific name; none where none ship."""
    file = FILES.get(species)
    return tuple(map(_trait, sourced_rows(PACKAGE, file, "allele"))) if file else ()


@cache
def shipped_pairs(species: str) -> tuple[Pair, ...]:
    """How different alleles of a locus look together."""
    file = FILES.get(species)
    return tuple(map(_pair, sourced_rows(PACKAGE, file, "pair"))) if file else ()


def shipped_catalogue(name: str) -> Catalogue:
    """The catalogue of a species by its scientific or common name; NotFound lists what there is."""
    for scientific, common in shipped_species().items():
        if name.strip().casefold() in (scientific.casefold(), common.casefold()):
            row = sourced_rows(PACKAGE, FILES[scientific], "species")[0]
            traits, pairs = shipped_traits(scientific), shipped_pairs(scientific)
            return Catalogue(scientific, traits, pairs, row["sex_system"])
    known = ", ".join(shipped_species().values())
    raise NotFound(f"no traits are known of {name!r}; there are some of: {known}")


def shipped_species() -> Mapping[str, str]:
    """The common name of each species that has a catalogue, by its scientific name."""
    return {name: _common(file) for name, file in sorted(FILES.items())}


def _common(file: str) -> str:
    return str(sourced_rows(PACKAGE, file, "species")[0]["common"])


def _trait(row: SourcedRow) -> Trait:
    chance = row.get("recombination")
    return Trait(
        row["locus"],
        row["name"],
        Shows(row["shows"]),
        row.source,
        also=tuple(row.get("also", ())),
        two_copies=row.get("two_copies", ""),
        linked=row.get("linked", ""),
        recombination=None if chance is None else check_recombination(chance),
        lethal_twice=row.get("lethal_twice", False),
        harms_twice=row.get("harms_twice", False),
        welfare=row.get("welfare", ""),
        welfare_source=row.source_of("welfare") if "welfare" in row else None,
        note=row.get("note", ""),
    )


def _pair(row: SourcedRow) -> Pair:
    return Pair(row["locus"], sorted_pair(row["alleles"]), row["look"], row.source)
