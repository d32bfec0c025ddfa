"""How many copies of each trait an animal has, as other plugins may ask."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date

from warmside.api import Animal, Ask, BadInput, Basis, Distribution, Unit
from warmside.plugins.genes.inheritance.copies import copies
from warmside.plugins.genes.inheritance.settled import Settled, settled
from warmside.plugins.genes.reading.family import Kin, kin_of

CERTAIN = 0.9995


def trait_copies(ask: Ask, animal: Animal, on: date) -> Iterator[Distribution]:
    """The chances of no copy, one and all, for each trait that anybody in the family is said of.

    Nothing for a family that cannot be reckoned with.
    """
    kin = kin_of(ask, [animal], on)
    try:
        found = _settled(ask, kin, on)
    except BadInput:  # too closely interwoven
        return
    named = {
        s.known.trait.name: s.known.trait for said in kin.said.values() for s in said if s.known
    }
    for trait in named.values():
        if found.model is not None and found.knows(trait.locus):
            chances = copies(found.model.genotypes(animal.id, trait.locus), trait.name)
            shares = tuple(zip((0.0, 1.0, 2.0), chances, strict=True))
            yield Distribution(shares, Unit.COUNT, Basis(trait.name))


def is_het(ask: Ask, animal: Animal, trait: str, on: date) -> bool:
    """Whether nothing but one copy of a trait is left by all that is known of the family."""
    for given in trait_copies(ask, animal, on):
        if given.basis.rule == trait:
            return dict(given.chances)[1.0] > CERTAIN
    return False


def _settled(ask: Ask, kin: Kin, on: date) -> Settled:
    """The family reckoned with, once for all its members that are asked about."""
    members = frozenset(m.id for m in kin.family.members)
    return ask.book.once(("genes", "settled", members, on), lambda: settled(kin.family))
