"""A clutch against what was expected of its parents, in words and a table."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction

from warmside.api import Animal, Answer, Cell, Column, Part, Table, Tone, Unit, counted, paragraphs
from warmside.plugins.genes.inheritance.doubted import Doubted
from warmside.plugins.genes.inheritance.loci import Genotype
from warmside.plugins.genes.ratios.oddness import ADDED_UP
from warmside.plugins.genes.reading.clutches import ClutchTest, LocusTest
from warmside.plugins.genes.telling.ratio import ODD
from warmside.plugins.genes.telling.wording import percent

COLUMNS = (
    Column("locus", "locus"),
    Column("dam", "dam", below=True),
    Column("sire", "sire", below=True),
    Column("seen", "seen"),
    Column("expected", "expected"),
    Column("odd", "as odd"),
    Column("p", "chance", Unit.PROBABILITY, text=False),
    Column("parents_chance", "chance of these parents", Unit.PROBABILITY, text=False),
)
LUCK = "Of many clutches, 1 in 20 looks odd by luck alone."


def clutch_shown(name: str, found: ClutchTest) -> Answer:
    """A row a locus, then what is odd, what is doubtful by now and what was not counted."""
    table = Table(
        "loci",
        COLUMNS,
        tuple(map(_row, found.loci)),
        f"{found.young} young of {found.dam.label} × {found.sire.label}",
        empty="no young has a look on record: warmside genes known NAME",
    )
    odd = [t for t in found.loci if t.odd.chance < ODD]
    cautions = (*map(_odd_words, odd), *(_doubt_words(d, found) for d in found.doubts))
    rule = (
        "Expected by Mendel's rules of the likeliest parents, as if nothing were known of these "
        f"young. How odd: {'; '.join(dict.fromkeys(t.odd.rule for t in found.loci)) or ADDED_UP}."
    )
    unsure = [] if found.sire_sure else [_sire_words(found.sire)]
    plain = (*unsure, *_silent_words(found), rule, *((LUCK,) if odd else ()))
    parts: tuple[Part, ...] = (
        table,
        *paragraphs(*cautions, tone=Tone.CAUTION),
        *paragraphs(*plain),
    )
    return Answer(f"Clutch {name} against what was expected", parts)


def _row(test: LocusTest) -> tuple[Cell, ...]:
    seen = ", ".join(f"{n} {look}" for look, n in test.counts.looks.items())
    chance = test.odd.chance
    return (
        test.locus,
        pair_words(test.parents.dam),
        pair_words(test.parents.sire),
        seen,
        ", ".join(f"{_share(share)} {look}" for look, share in test.expected.items()),
        percent(chance),
        chance,
        test.parents.chance,
    )


def pair_words(pair: Genotype) -> str:
    """Two alleles as they are written: `+/piebald`."""
    return "/".join(pair)


def _share(share: Fraction) -> str:
    return "all" if share == 1 else str(share)


def _odd_words(test: LocusTest) -> str:
    parents = f"{pair_words(test.parents.dam)} × {pair_words(test.parents.sire)}"
    never = [look for look, n in test.counts.looks.items() if n and look not in test.expected]
    if never:
        return (
            f"{test.locus}: {parents} cannot have young that look {' or '.join(never)}. A parent "
            "carries another gene than recorded, is another animal, or the young were seen wrongly."
        )
    return (
        f"{test.locus}: such counts are rare if the parents are {parents}. Look again at what was "
        "stated of them, at who the sire is, and at eggs that did not hatch."
    )


def _sire_words(sire: Animal) -> str:
    return (
        f"{sire.label} is taken as the sire, as the only one on record, though that is not certain."
    )


def _doubt_words(doubt: Doubted, found: ClutchTest) -> str:
    whose = found.dam if doubt.fact.animal == found.dam.id else found.sire
    return (
        f"{whose.label}, {doubt.fact.words} (stated) is doubtful by now: {percent(doubt.chance)} "
        "likely by all its young, if it was even before."
    )


def _silent_words(found: ClutchTest) -> Iterator[str]:
    for test in found.loci:
        if test.taken:
            yield (
                f"{test.locus}: {counted(test.taken, 'young', 'young')} of which only other traits "
                "were described are counted as normal here."
            )
        if silent := test.counts.silent:
            have = "has" if silent == 1 else "have"
            yield (
                f"{test.locus}: {silent} of {found.young} young {have} no look on record. Counts "
                "of some only can mislead: record those that look normal, too."
            )
