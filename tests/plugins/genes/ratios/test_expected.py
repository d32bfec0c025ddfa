"""What two genotypes give at a locus, and how looks are counted."""

from __future__ import annotations

from fractions import Fraction

from warmside.plugins.genes.inheritance.loci import ABSENT, WILD, Allele, Locus, Shows
from warmside.plugins.genes.ratios.expected import counted, shares

ALBINO = Locus("albino", (Allele("albino", Shows.RECESSIVE),))
SALMON = Locus("salmon", (Allele("salmon", Shows.INCOMPLETE, two_copies="super salmon"),))
HET, VISUAL = (WILD, "albino"), ("albino", "albino")


def test_the_ratios_of_textbooks() -> None:
    """3 : 1, 1 : 1 and 1 : 2 : 1 (Mendel 1866)."""
    quarter, half = Fraction(1, 4), Fraction(1, 2)
    assert shares(ALBINO, HET, HET) == {"normal": 3 * quarter, "albino": quarter}
    assert shares(ALBINO, HET, VISUAL) == {"normal": half, "albino": half}
    assert shares(SALMON, (WILD, "salmon"), (WILD, "salmon")) == {
        "normal": quarter,
        "salmon": half,
        "super salmon": quarter,
    }


def test_two_copies_that_do_not_hatch_leave_two_to_one() -> None:
    het = (WILD, "salmon")
    found = shares(SALMON, het, het, {("salmon", "salmon")})
    assert found == {"normal": Fraction(1, 3), "salmon": Fraction(2, 3)}


def test_a_dam_with_one_z_gives_her_daughters_nothing() -> None:
    """A visual dam (Z with it, W without) by a wild male: no young shows a recessive on Z."""
    assert shares(ALBINO, (ABSENT, "albino"), (WILD, WILD)) == {"normal": 1}
    assert shares(ALBINO, (ABSENT, WILD), HET)["albino"] == Fraction(1, 4)


def test_only_looks_that_are_known_count() -> None:
    either = frozenset({(WILD, WILD), HET, VISUAL})
    seen = [ALBINO.showing("normal")] * 3 + [ALBINO.showing("albino"), either, frozenset()]
    found = counted(ALBINO, seen, shares(ALBINO, HET, HET))
    assert found.looks == {"normal": 3, "albino": 1}
    assert found.silent == 2


def test_a_look_that_the_parents_cannot_give_is_counted_too() -> None:
    found = counted(ALBINO, [ALBINO.showing("albino")], shares(ALBINO, HET, (WILD, WILD)))
    assert found.looks == {"normal": 0, "albino": 1}
