"""A clutch from the record: its parents, and the looks of its young at each locus."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from datetime import date
from fractions import Fraction

from msgspec import Struct

from warmside.api import Animal, Ask, BadInput, Clutch
from warmside.plugins.genes.inheritance.doubted import Doubted, doubted
from warmside.plugins.genes.inheritance.loci import NORMAL, WILD, Genotype, genotype
from warmside.plugins.genes.ratios.expected import Counted, Shares, counted, shares
from warmside.plugins.genes.ratios.oddness import Oddness, oddness
from warmside.plugins.genes.ratios.parents import (
    Likeliest,
    likeliest,
    possible_of,
    without_looks,
)
from warmside.plugins.genes.reading.family import Kin, kin_of


class LocusTest(Struct, frozen=True):
    """Counts at a locus against what its parents' likeliest genotypes give.

    `taken` are young of which only other traits were described: they count as not showing these.
    """

    locus: str
    parents: Likeliest
    expected: Shares
    counts: Counted
    odd: Oddness
    taken: int = 0


class ClutchTest(Struct, frozen=True):
    """The loci of which its young tell, and what stated of its parents is doubtful by now."""

    dam: Animal
    sire: Animal
    sire_sure: bool
    young: int
    loci: tuple[LocusTest, ...]
    doubts: tuple[Doubted, ...]


def clutch_test(ask: Ask, clutch: Clutch, on: date) -> ClutchTest:
    """The young of a clutch against what was known of its parents without them.

    Raises BadInput where several sires may be, one is not known, or no young is on record.
    """
    dam, sire = parents(ask, clutch)
    young = [a.id for a in ask.book.young_of(clutch.id)]
    if not young:
        raise BadInput(
            f"{clutch.label} has no young on record; enter them: "
            f"warmside animal add NAME --clutch {clutch.code}"
        )
    kin = kin_of(ask, [dam, sire], on)
    loci = tuple(_tests(kin, (dam.id, sire.id), young))
    sure = clutch.sires[0].certainty == "certain"
    below = float(ask.setting("genes", "doubt_below")) / 100
    doubts = tuple(d for d in doubted(kin.family, below) if d.fact.animal in (dam.id, sire.id))
    return ClutchTest(dam, sire, sure, len(young), loci, doubts)


def parents(ask: Ask, clutch: Clutch) -> tuple[Animal, Animal]:
    """Dam and sire of a clutch, the only one that is named; BadInput where there is none such."""
    animals = ask.book.animals
    if clutch.dam_id is None or not clutch.sires:
        raise BadInput(
            f"the parents of {clutch.label} are not both on record; record them: "
            f"warmside clutch change {clutch.code} --dam CODE --sire CODE"
        )
    if len(clutch.sires) > 1 or clutch.sires[0].weight is not None:
        raise BadInput(
            f"the sire of {clutch.label} is not certain, so no one ratio is expected; see what "
            f"each young may carry: warmside genes show NAME; if you know him: "
            f"warmside clutch change {clutch.code} --sire CODE"
        )
    return animals[clutch.dam_id], animals[clutch.sires[0].animal_id]


def _tests(kin: Kin, pair: tuple[int, int], young: list[int]) -> Iterator[LocusTest]:
    before = without_looks(kin.family, set(young), pair)
    for name, locus in kin.catalogue.loci.items():
        if before.model is None or not before.knows(name):
            continue
        found = likeliest(before.model, name, pair)
        expected = shares(locus, found.dam, found.sire, _dead(kin, name))
        known = possible_of(kin.family, name, young)
        taken = _described(kin, young, known) if NORMAL in expected else set()
        normal = locus.showing(NORMAL)
        filled = [normal if n in taken else k for n, k in enumerate(known)]
        counts = counted(locus, filled, expected)
        if sum(counts.looks.values()) > len(taken):
            odd = _odd(counts, expected)
            yield LocusTest(name, found, expected, counts, odd, len(taken))


def _described(kin: Kin, young: Sequence[int], known: Sequence[frozenset[Genotype]]) -> set[int]:
    """The places of the young of which another trait was said and nothing of this one."""
    said = {f.animal for f in kin.family.facts}
    return {n for n, id in enumerate(young) if not known[n] and id in said}


def _dead(kin: Kin, locus: str) -> set[Genotype]:
    """Two copies of which no young are said to hatch."""
    lethal = [t.name for t in kin.catalogue.traits if t.locus == locus and t.lethal_twice]
    return {genotype(a, b) for a in lethal for b in lethal if WILD not in (a, b)}


def _odd(counts: Counted, expected: Shares) -> Oddness:
    seen = list(counts.looks.values())
    return oddness(seen, [expected.get(look, Fraction(0)) for look in counts.looks])
