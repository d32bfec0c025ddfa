"""A planned pairing of two animals that are described in words."""

from __future__ import annotations

from collections.abc import Sequence

from warmside.api import BadInput
from warmside.plugins.genes.inheritance.facts import Member
from warmside.plugins.genes.inheritance.model import Family, Model
from warmside.plugins.genes.inheritance.pairing import Offspring, carried, offspring
from warmside.plugins.genes.traits.catalogue import Catalogue
from warmside.plugins.genes.traits.meaning import whole
from warmside.plugins.genes.traits.words import Known

MOST_YOUNG = 200


def check_young(young: int) -> None:
    """Raise BadInput for a clutch that no animal has."""
    if not 1 <= young <= MOST_YOUNG:
        raise BadInput(f"--young is the size of one clutch or litter, 1 to {MOST_YOUNG}")


def planned(
    traits: Catalogue, dam: Sequence[Known], sire: Sequence[Known]
) -> tuple[Offspring, Offspring]:
    """What the two can produce at the loci that are named of either: looks, then genotypes."""
    loci = list(dict.fromkeys(k.trait.locus for k in (*dam, *sire)))
    priors = tuple(
        whole(animal, [k for k in said if k.trait.locus == name], traits.loci[name])
        for animal, said in (("dam", dam), ("sire", sire))
        for name in loci
    )
    members = (Member("dam", "female"), Member("sire", "male"))
    family = Family(members, traits.groups(loci), (), priors)
    model = Model(family, [("dam", "sire")])
    return offspring(model, "dam", "sire"), offspring(model, "dam", "sire", carried)
