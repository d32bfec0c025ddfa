"""Kinship and inbreeding in words: how large, from which paths, how sure."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from typing import Any

from warmside.api import Basis, Column, Fact, Mark, Part, Source, Table, Unit, paragraphs
from warmside.plugins.lineage.kinship.paths import Path
from warmside.plugins.lineage.kinship.pedigree import Pedigree
from warmside.plugins.lineage.kinship.uncertain import Kinship

WRIGHT = Source("Wright 1922 Am Nat 56:330-338", Mark.PUBLISHED)
MEANT = (
    (0.25, "young of full sibs, or of parent and young"),
    (0.125, "young of half sibs"),
    (0.0625, "young of first cousins"),
    (0.015625, "young of second cousins"),
)
"""What a coefficient is like (Wright; Falconer & Mackay, Quantitative Genetics, chapter 5)."""
NO_THRESHOLD = (
    "No threshold is known for reptiles; in wild adders close inbreeding made litters smaller and "
    "more young deformed or stillborn (Madsen, Stille & Shine 1996 Biol Conserv 75:113)."
)


def coefficient(key: str, title: str, found: Kinship, strangers: int) -> Fact:
    """A coefficient; where parents are unsure, its range stands in the rule."""
    spread = ""
    if found.most - found.least > 1e-12:
        spread = f", from {found.least:.4g} to {found.most:.4g} by who the parents are"
    rule = f"exact over all recorded ancestors{spread}; founders are taken as unrelated"
    if strangers:
        parents = "parent is" if strangers == 1 else "parents are"
        rule += f", and so {strangers} {parents} that {'is' if strangers == 1 else 'are'} not known"
    return Fact(key, title, found.expected, Unit.RATIO, Basis(rule, WRIGHT))


def meaning(value: float) -> Iterator[str]:
    """What a coefficient is like."""
    for at_least, words in MEANT:
        if value >= at_least - 1e-9:
            more = "as much as" if value < at_least + 1e-9 else "more than"
            yield f"{value:.3g} is {more} {words} have ({at_least:g})."
            return
    if value > 0:
        yield f"{value:.3g} is less than young of second cousins have."


def paths_table(
    known: Pedigree, found: Sequence[Path], codes: Mapping[Any, str], total: float
) -> Table:
    """The paths that cause it, the heaviest first."""
    columns = (
        Column("ancestor", "through"),
        Column("path", "path"),
        Column("adds", "adds", Unit.RATIO),
    )
    rows = tuple((codes[known.ids[p.ancestor]], _path(known, p, codes), p.adds) for p in found)
    told = sum(p.adds for p in found)
    rest = "" if told > total - 1e-9 else f"; {total - told:.3g} more by longer paths"
    return Table("paths", columns, rows, f"Paths through common ancestors{rest}")


def _path(known: Pedigree, path: Path, codes: Mapping[Any, str]) -> str:
    places = (*path.up, path.ancestor, *path.down)
    return " - ".join(codes[known.ids[p]] for p in places)


def caution() -> tuple[Part, ...]:
    """What is known of the harm of inbreeding, and what is not."""
    return paragraphs(NO_THRESHOLD)
