"""Counts of young beside what was expected of them, and how odd they are."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
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
from warmside.plugins.genes.ratios.drawn import DRAWS
from warmside.plugins.genes.ratios.oddness import Oddness, oddness

TEXTBOOK = Source("exact multinomial test; textbook of statistics", Mark.FROM_MEMORY)
BY_DRAWS = Source(
    "multinomial test by draws, limits after Clopper & Pearson 1934", Mark.FROM_MEMORY
)
ODD = Fraction(1, 20)
"""Below it a result is called odd: 1 in 20, the usual convention of statistics."""
TINY = 1e-9
LONGEST_BITS = 500
"""Longer fractions are not printed: nobody reads them."""
COLUMNS = (Column("class", "class"), Column("seen", "seen"), Column("expected", "expected"))


def ratio_shown(counts: Sequence[int], shares: Sequence[Fraction]) -> Answer:
    """The test, the counts side by side, and what they can and cannot show."""
    odd = oddness(counts, shares)
    young, whole = sum(counts), sum(shares)
    rows = tuple(
        (str(n), seen, round(float(young * share / whole), 2))
        for n, (seen, share) in enumerate(zip(counts, shares, strict=True), 1)
    )
    parts: tuple[Part, ...] = (
        *_facts(odd),
        Table("classes", COLUMNS, rows, f"{young} young"),
        *paragraphs(*meaning(counts, shares, odd)),
    )
    return Answer("Young against the expected ratio", parts, extra={"p_exact": _in_full(odd)})


def _facts(odd: Oddness) -> Iterator[Fact]:
    """The chance; one too small to be read, or of which no draw was, by what it is less than."""
    title = "chance of counts as odd"
    basis = Basis(odd.rule, BY_DRAWS if odd.exact is None else TEXTBOOK)
    if odd.exact is None and odd.chance == 0:
        least = f"less than {odd.high:.5f}: none of {DRAWS:,} drawn counts was as odd"
        yield Fact("p", title, None, Unit.RATIO, basis, least)
    elif odd.exact != 0 and odd.chance < TINY:
        yield Fact("p", title, None, Unit.RATIO, basis, "less than one in a billion")
    else:
        yield Fact("p", title, odd.chance, Unit.RATIO, basis)
    if odd.exact is None:
        yield Fact("p_low", "at least (95 % sure)", odd.low, Unit.RATIO)
        yield Fact("p_high", "at most (95 % sure)", odd.high, Unit.RATIO)


def _in_full(odd: Oddness) -> str | None:
    """The chance as a fraction, where it was reckoned exactly and can be read."""
    short = odd.exact is not None and odd.exact.denominator.bit_length() <= LONGEST_BITS
    return str(odd.exact) if short else None


def meaning(counts: Sequence[int], shares: Sequence[Fraction], odd: Oddness) -> tuple[str, ...]:
    """What the chance says, in words."""
    never = [n for n, (c, s) in enumerate(zip(counts, shares, strict=True), 1) if c and not s]
    if never:
        told = ", ".join(map(str, never))
        return (
            f"Class {told} should have no young at all, yet some were counted: a parent is not "
            "what it was taken for, or the young were seen wrongly.",
        )
    if odd.chance >= ODD:
        return ("The counts fit the ratio. That does not prove it: few young fit many ratios.",)
    return (
        "Counts so far from the ratio are rare if it is true. Look again at what was stated of "
        "the parents, at who the sire is, and at eggs that did not hatch. Of many clutches, 1 in "
        "20 looks odd by luck alone.",
    )
