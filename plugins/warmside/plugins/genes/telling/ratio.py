"""Counts of young beside what was expected of them, and how odd they are."""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction

from warmside.api import (
    Answer,
    Basis,
    Column,
    Fact,
    Mark,
    Part,
    Source,
    Table,
    Unit,
    paragraphs,
)
from warmside.plugins.genes.ratios.multinomial import chance_as_odd

TEXTBOOK = Source("exact multinomial test; textbook of statistics", Mark.FROM_MEMORY)
ODD = Fraction(1, 20)
"""Below it a result is called odd: 1 in 20, the usual convention of statistics."""
RULE = "all outcomes that are not likelier than the counted one, added up, each reckoned exactly"
COLUMNS = (Column("class", "class"), Column("seen", "seen"), Column("expected", "expected"))


def ratio_shown(counts: Sequence[int], shares: Sequence[Fraction]) -> Answer:
    """The test, the counts side by side, and what they can and cannot show."""
    chance = chance_as_odd(counts, shares)
    young, whole = sum(counts), sum(shares)
    rows = tuple(
        (str(n), seen, round(float(young * share / whole), 2))
        for n, (seen, share) in enumerate(zip(counts, shares, strict=True), 1)
    )
    parts: tuple[Part, ...] = (
        Fact("p", "chance of counts as odd", float(chance), Unit.RATIO, Basis(RULE, TEXTBOOK)),
        Table("classes", COLUMNS, rows, f"{young} young"),
        *paragraphs(*meaning(counts, shares, chance)),
    )
    return Answer("Young against the expected ratio", parts, extra={"p_exact": str(chance)})


def meaning(counts: Sequence[int], shares: Sequence[Fraction], chance: Fraction) -> tuple[str, ...]:
    """What the chance says, in words."""
    never = [n for n, (c, s) in enumerate(zip(counts, shares, strict=True), 1) if c and not s]
    if never:
        told = ", ".join(map(str, never))
        return (
            f"Class {told} should have no young at all, yet some were counted: a parent is not "
            "what it was taken for, or the young were seen wrongly.",
        )
    if chance >= ODD:
        return ("The counts fit the ratio. That does not prove it: few young fit many ratios.",)
    return (
        "Counts so far from the ratio are rare if it is true. Look again at what was stated of "
        "the parents, at who the sire is, and at eggs that did not hatch. Of many clutches, 1 in "
        "20 looks odd by luck alone.",
    )
