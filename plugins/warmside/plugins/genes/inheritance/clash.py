"""Which facts cannot all be true."""

from __future__ import annotations

from collections.abc import Sequence

from msgspec.structs import replace

from warmside.plugins.genes.exact.network import Impossible
from warmside.plugins.genes.inheritance.facts import Fact
from warmside.plugins.genes.inheritance.model import Family, Model


def clash(family: Family) -> tuple[Fact, ...]:
    """Facts that contradict each other, none of which can be left out; empty where all agree.

    Each fact in turn is left out for good where the rest still contradict (a minimal set, though
    another may be smaller).
    """
    if is_possible(family, family.facts):
        return ()
    kept = list(family.facts)
    for fact in family.facts:
        fewer = [f for f in kept if f is not fact]
        if not is_possible(family, fewer):
            kept = fewer
    return tuple(kept)


def is_possible(family: Family, facts: Sequence[Fact]) -> bool:
    """Can all these facts of the family be true at once?"""
    try:
        _ = Model(replace(family, facts=tuple(facts))).beliefs
    except Impossible:
        return False
    return True
