"""Paths, founders and unsure parents."""

from __future__ import annotations

from fractions import Fraction

import pytest
from hypothesis import given

from random_pedigrees import TWELVE, of, small_ones
from warmside.api import BadInput
from warmside.plugins.lineage.kinship.founders import group
from warmside.plugins.lineage.kinship.inbreeding import inbreeding
from warmside.plugins.lineage.kinship.pair import kinship
from warmside.plugins.lineage.kinship.paths import paths
from warmside.plugins.lineage.kinship.pedigree import Pedigree
from warmside.plugins.lineage.kinship.uncertain import Child, inbreeding_of, kinship_of, ways


@given(small_ones())
def test_all_paths_together_are_the_kinship(known: Pedigree) -> None:
    found = inbreeding(known)
    last = len(known.ids) - 1
    told = paths(known, found, last, last - 1, 10_000)
    assert sum(p.adds for p in told) == pytest.approx(kinship(known, found, last, last - 1))
    assert [p.adds for p in told] == sorted((p.adds for p in told), reverse=True)


def test_a_path_goes_up_to_an_ancestor_and_down() -> None:
    found = inbreeding(TWELVE)
    first, *_ = paths(TWELVE, found, TWELVE.place["F"], TWELVE.place["G"], 5)
    named = [TWELVE.ids[p] for p in (*first.up, first.ancestor, *first.down)]
    assert named[0] == "F" and named[-1] == "G" and "A" in named
    assert first.adds == 1 / 16  # (1/2)^3 along two links up and down, times 1/2


def test_the_example_of_lacy() -> None:
    """Lacy 1989, Zoo Biol 8:111: founders A, B, E; C, D of A x B; F, G of D x E."""
    known = of("A:0,0 B:0,0 E:0,0 C:B,A D:B,A F:E,D G:E,D")
    found = group(known, inbreeding(known), [known.place[id] for id in "CDFG"])
    assert found.contributions == {"A": 0.375, "B": 0.375, "E": 0.25}
    assert found.founder_equivalents == pytest.approx(32 / 11)
    assert round(found.founder_equivalents, 2) == 2.91
    means = {id: Fraction(mean) for id, mean in found.mean_kinship.items()}
    assert means == {
        "C": Fraction(1, 4),
        "D": Fraction(5, 16),
        "F": Fraction(9, 32),
        "G": Fraction(9, 32),
    }
    assert found.mean == 9 / 32


def test_a_parent_who_is_not_known_counts_as_a_founder() -> None:
    known = of("a:0,0 b:a,0 c:a,0")
    found = group(known, inbreeding(known), [known.place["b"], known.place["c"]])
    assert found.contributions == {"a": 0.5}
    assert found.unknown == 0.5
    assert found.founder_equivalents == pytest.approx(1 / (0.25 + 2 * 0.0625))


SIBS = (Child("dam", {"m": 1.0}, {"f": 1.0}), Child("bro", {"m": 1.0}, {"f": 1.0}))


def test_an_unsure_sire_gives_an_expected_value_and_a_range() -> None:
    """The dam's full brother by 3/5, else an unrelated male: 3/20, from 0 to 1/4."""
    young = Child("y", {"dam": 1.0}, {"bro": 0.6, "x": 0.4})
    assert inbreeding_of(ways([*SIBS, young]), "y") == (pytest.approx(0.15), 0.0, 0.25)
    stranger = Child("y", {"dam": 1.0}, {"bro": 0.6})
    assert inbreeding_of(ways([*SIBS, stranger]), "y") == (pytest.approx(0.15), 0.0, 0.25)


def test_clutch_mates_share_the_sire_that_is_not_sure() -> None:
    """Full sibs whoever it was: 1/4 always; of a clutch each for itself it would be less."""
    sires = {"x": 0.5, "z": 0.5}
    together = [Child(id, {"m": 1.0}, sires, "clutch") for id in "ab"]
    assert kinship_of(ways(together), "a", "b") == (0.25, 0.25, 0.25)
    alone = [Child(id, {"m": 1.0}, sires) for id in "ab"]
    assert kinship_of(ways(alone), "a", "b") == (0.1875, 0.125, 0.25)


def test_too_many_open_questions_are_refused() -> None:
    many = [Child(n, {"m": 1.0}, {"x": 0.5, "z": 0.5}) for n in range(12)]
    with pytest.raises(BadInput, match="4096 pedigrees"):
        ways(many)
