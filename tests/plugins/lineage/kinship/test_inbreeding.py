"""Inbreeding and kinship against published pedigrees, textbook matings and a slow reckoning."""

from __future__ import annotations

from fractions import Fraction
from functools import cache

import pytest
from hypothesis import given

from random_pedigrees import TWELVE, of, small_ones
from warmside.api import BadInput
from warmside.plugins.lineage.kinship.inbreeding import inbreeding
from warmside.plugins.lineage.kinship.pair import kinship
from warmside.plugins.lineage.kinship.pedigree import Pedigree, Row, pedigree


def f(known: Pedigree) -> dict[object, float]:
    return dict(zip(known.ids, inbreeding(known), strict=True))


def between(known: Pedigree, one: str, other: str) -> float:
    return kinship(known, inbreeding(known), known.place[one], known.place[other])


MRODE = of("1:0,0 2:0,0 3:2,1 4:0,1 5:3,4 6:2,5")


def test_the_pedigree_of_mrode() -> None:
    """Mrode 2005, Linear Models, table 2.1; relationships halved."""
    assert f(MRODE) == {"1": 0, "2": 0, "3": 0, "4": 0, "5": 0.125, "6": 0.125}
    printed = {("3", "4"): 0.25, ("3", "5"): 0.625, ("3", "6"): 0.5625, ("4", "6"): 0.3125}
    printed |= {("5", "6"): 0.6875, ("1", "6"): 0.25, ("2", "6"): 0.625}
    for (one, other), relationship in printed.items():
        assert between(MRODE, one, other) == relationship / 2


def test_the_pedigree_of_the_fnr_vignette() -> None:
    """FnR, CRAN vignette, printed output: all 0 but 10 and 11."""
    text = "1:0,0 2:0,0 3:0,0 4:1,2 5:1,2 6:0,0 7:3,4 8:5,6 9:7,0 10:8,6 11:9,10 12:0,10"
    inbred = {id: v for id, v in f(of(text)).items() if v}
    assert inbred == {"10": 0.25, "11": 0.015625}


def test_the_pedigree_of_fernando_and_grossman() -> None:
    """Fernando & Grossman 1990 Theor Appl Genet 80:75-80, table 1; F worked out."""
    found = f(of("1:0,0 2:0,0 3:0,1 4:2,1 5:4,3 6:4,1 7:6,5 8:6,5"))
    assert [found[id] for id in "5678"] == [0.125, 0.25, 0.28125, 0.28125]


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("d:0,0 s:0,0 a:d,s b:d,s y:a,b", 1 / 4),  # full sibs
        ("d:0,0 s:0,0 a:d,s y:a,s", 1 / 4),  # parent and young
        ("d:0,0 s:0,0 e:0,0 a:d,s b:e,s y:a,b", 1 / 8),  # half sibs
        ("d:0,0 s:0,0 a:d,s b:d,s c:a,0 y:c,b", 1 / 8),  # uncle and niece
        ("d:0,0 s:0,0 a:d,s b:d,s c:a,0 e:b,0 y:c,e", 1 / 16),  # first cousins
        ("d:0,0 s:0,0 a:d,s b:d,s c:a,0 e:b,0 g:c,0 h:e,0 y:g,h", 1 / 64),  # second cousins
        ("p:0,0 q:0,0 r:0,0 t:0,0 a:p,q b:p,q c:r,t e:r,t g:a,c h:b,e y:g,h", 1 / 8),  # double
    ],
)
def test_the_matings_of_the_textbook(text: str, expected: float) -> None:
    """Falconer & Mackay, Quantitative Genetics, chapter 5 (from memory), exact."""
    assert f(of(text))["y"] == expected


def test_repeated_full_sib_mating() -> None:
    """F_t = (1 + 2 F_(t-1) + F_(t-2)) / 4 (Falconer & Mackay, chapter 5)."""
    text = "d0:0,0 s0:0,0 " + " ".join(
        f"d{n}:d{n - 1},s{n - 1} s{n}:d{n - 1},s{n - 1}" for n in range(1, 11)
    )
    found = f(of(text))
    assert [found[f"d{n}"] for n in range(2, 8)] == [0.25, 0.375, 0.5, 0.59375, 0.671875, 0.734375]


def test_twelve_animals_with_loops() -> None:
    """The values that PedNet 2.1.0 and sgkit 0.10.0 give, exactly."""
    inbred = {id: Fraction(v) for id, v in f(TWELVE).items() if v}
    quarter = Fraction(1, 4)
    assert inbred == {
        "G": quarter,
        "H": Fraction(1, 8),
        "I": quarter,
        "J": quarter,
        "K": Fraction(27, 64),
        "L": Fraction(11, 32),
    }
    assert between(TWELVE, "K", "L") == 135 / 256
    assert between(TWELVE, "C", "L") == 1 / 32
    assert between(TWELVE, "L", "L") == 43 / 64


def test_parents_may_stand_behind_their_young() -> None:
    assert f(of("y:a,b a:d,s b:d,s d:0,0 s:0,0"))["y"] == 0.25
    assert f(pedigree([Row("y", "a", "b"), Row("a", "d", None), Row("b", "d", None)]))["y"] == 0.125


@pytest.mark.parametrize(
    ("text", "told"),
    [
        ("a:b,0 b:a,0", "a < b < a"),
        ("a:b,0 b:c,0 c:a,0 x:0,0", "nobody is their own ancestor"),
        ("a:b,b", "as dam and as sire"),
        ("a:0,0 a:0,0", "twice"),
    ],
)
def test_what_is_no_pedigree_is_said(text: str, told: str) -> None:
    with pytest.raises(BadInput, match=told):
        of(text)


def test_a_very_deep_pedigree_is_no_trouble() -> None:
    rows = [Row(0, None, None), *(Row(n, n - 1, None) for n in range(1, 5000))]
    assert max(inbreeding(pedigree(reversed(rows)))) == 0


@given(small_ones())
def test_it_is_the_recursion_of_malecot(known: Pedigree) -> None:
    """Kinship by its definition, in exact fractions, is what both fast ways give."""

    @cache
    def slow(one: int, other: int) -> Fraction:
        if min(one, other) < 0:
            return Fraction(0)
        if one == other:
            return (1 + slow(*known.parents(one))) / 2
        younger, older = max(one, other), min(one, other)
        return (slow(known.dam[younger], older) + slow(known.sire[younger], older)) / 2

    found = inbreeding(known)
    for one in range(len(known.ids)):
        assert found[one] == pytest.approx(float(slow(*known.parents(one))), abs=1e-14)
        for other in range(one + 1):
            assert kinship(known, found, one, other) == pytest.approx(
                float(slow(one, other)), abs=1e-14
            )
