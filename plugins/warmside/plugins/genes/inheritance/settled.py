"""A family reckoned with as far as what is said of it can be true."""

from __future__ import annotations

from msgspec import Struct
from msgspec.structs import replace

from warmside.plugins.genes.exact.network import Impossible
from warmside.plugins.genes.inheritance.clash import clash
from warmside.plugins.genes.inheritance.facts import Fact, Id
from warmside.plugins.genes.inheritance.model import Family, Model

STATED = "stated"
"""The source of a fact that gives way where it contradicts what was seen or tested."""


class Settled(Struct, frozen=True):
    """The reckoning; `disproved` are statements left out of it.

    Where what was seen or tested contradicts itself, `clash` says what, and the loci that are meant
    are left out of the model, which is None where none is left.
    """

    model: Model | None
    disproved: tuple[Fact, ...] = ()
    clash: tuple[Fact, ...] = ()

    def knows(self, locus: str) -> bool:
        """Whether chances can be given for a locus."""
        groups = self.model.family.groups if self.model else ()
        return any(locus == known.name for group in groups for known in group.loci)


def settled(family: Family, together: tuple[tuple[Id, ...], ...] = ()) -> Settled:
    """Reckon with a family; statements that cannot be true are left out, one after the other."""
    left, disproved, clashing = family, list[Fact](), list[Fact]()
    while left.groups:
        model = Model(left, together)
        try:
            _ = model.beliefs
        except Impossible:
            against = clash(left)
            stated = [f for f in against if f.source == STATED]
            if stated:
                disproved.append(stated[0])
                left = replace(left, facts=tuple(f for f in left.facts if f is not stated[0]))
            else:
                clashing += against
                left = _without(left, {f.locus for f in against})
        else:
            return Settled(model, tuple(disproved), tuple(clashing))
    return Settled(None, tuple(disproved), tuple(clashing))


def _without(family: Family, loci: set[str]) -> Family:
    """The family without the groups in which one of these loci lies."""
    groups = tuple(g for g in family.groups if not loci & {known.name for known in g.loci})
    return replace(family, groups=groups)
