"""Sibs that are drawn alike stand as one symbol with their number, where a row is too wide."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import NamedTuple

from msgspec.structs import replace

from warmside.plugins.lineage.pedigree.people import Drawn, Family, Id, generations

WIDE_ROW = 18
FEWEST = 3


class Gathered(NamedTuple):
    """The symbols, their families, and by which symbol each animal is drawn."""

    animals: Sequence[Drawn]
    families: Sequence[Family]
    drawn_by: Mapping[Id, Id]


def gathered(animals: Sequence[Drawn], families: Sequence[Family]) -> Gathered:
    """Young without young of their own, of one sex and look, as one; all apart in narrow rows."""
    alone = {a.id: a.id for a in animals}
    row = generations(animals, families)
    if max(map(list(row.values()).count, set(row.values()))) <= WIDE_ROW:
        return Gathered(animals, families, alone)
    by_id = {a.id: a for a in animals}
    parents = {p for f in families for p in f.parents}
    seen = [y for f in families for y in f.young]
    free = {a.id for a in animals if a.id not in parents and not a.index and seen.count(a.id) == 1}
    for family in families:
        for alike in _alike([by_id[y] for y in family.young if y in free]):
            alone |= {a.id: alike[0].id for a in alike}
            by_id[alike[0].id] = _as_one(alike)
    kept = {first: by_id[first] for first in dict.fromkeys(alone.values())}
    shorter = [f._replace(young=tuple(dict.fromkeys(alone[y] for y in f.young))) for f in families]
    return Gathered(list(kept.values()), shorter, alone)


def _alike(young: Sequence[Drawn]) -> list[list[Drawn]]:
    """Those that are drawn alike, where there are enough of them."""
    found: dict[object, list[Drawn]] = {}
    for one in young:
        found.setdefault((one.sex, one.shows, one.dead), []).append(one)
    return [group for group in found.values() if len(group) >= FEWEST]


def _as_one(alike: Sequence[Drawn]) -> Drawn:
    first, last = alike[0], alike[-1]
    words = (f"{len(alike)} alike", _code(first), "to", _code(last))
    return replace(first, words=words, number=len(alike))


def _code(animal: Drawn) -> str:
    """The code, which stands after the name unless both are the same."""
    return next(filter(None, animal.words[1:2]), animal.words[0])
