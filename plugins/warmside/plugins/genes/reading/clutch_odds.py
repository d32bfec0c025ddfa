"""How odd a clutch looks for its parents, as other plugins may ask of one of its young."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date

from warmside.api import Animal, Ask, BadInput, Basis, Estimate, Unit
from warmside.plugins.genes.reading.clutches import LocusTest, clutch_test


def clutch_odds(ask: Ask, young: Animal, on: date) -> Iterator[Estimate]:
    """The chance of each trait's counts; nothing where parents or looks do not let it be told."""
    if young.clutch_id is None:
        return
    try:
        found = clutch_test(ask, ask.book.clutches[young.clutch_id], on)
    except BadInput:  # a parent that is not certain, or a family that cannot be reckoned
        return
    for test in found.loci:
        odd = test.odd
        yield Estimate(odd.chance, odd.low, odd.high, Unit.PROBABILITY, Basis(_rule(test)))


def _rule(test: LocusTest) -> str:
    """`albino: 6 normal, 2 visual of +/albino x +/albino`."""
    seen = ", ".join(f"{n} {look}" for look, n in test.counts.looks.items())
    dam, sire = ("/".join(pair) for pair in (test.parents.dam, test.parents.sire))
    return f"{test.locus}: {seen} of {dam} × {sire}"
