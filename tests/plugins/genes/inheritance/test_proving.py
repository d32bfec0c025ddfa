"""What further young prove of a parent; expected values in exact fractions, by hand."""

from __future__ import annotations

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from gene_families import HET, ONE, A, perhaps, surely
from warmside.plugins.genes.inheritance.facts import Member, Prior
from warmside.plugins.genes.inheritance.model import Family, Model
from warmside.plugins.genes.inheritance.proving import (
    ParentWay,
    any_shows,
    carries,
    lowest,
    needed,
    parent_ways,
)


def ways(one: float, other: Prior) -> list[ParentWay]:
    members = (Member("D", "female"), Member("S", "male"))
    model = Model(Family(members, (ONE,), (), (perhaps("D", one), other)), [("D", "S")])
    return parent_ways(model, "D", "S", A.name, "a")


KNOWN_HET = Prior("S", A.name, {HET: 1.0})
VISUAL = surely("S")


@pytest.mark.parametrize(
    ("count", "left"),
    [
        (1, Fraction(3, 7)),
        (2, Fraction(9, 25)),
        (4, Fraction(81, 337)),
        (8, Fraction(6561, 72097)),
        (12, Fraction(531441, 17308657)),
    ],
)
def test_a_half_het_with_a_known_het(count: int, left: Fraction) -> None:
    assert carries(ways(0.5, KNOWN_HET), count) == pytest.approx(float(left), abs=1e-12)


@pytest.mark.parametrize(
    ("prior", "partner", "under_5", "under_1"),
    [
        (1 / 2, VISUAL, 5, 7),
        (1 / 2, KNOWN_HET, 11, 16),
        (2 / 3, VISUAL, 6, 8),
        (2 / 3, KNOWN_HET, 13, 19),
    ],
)
def test_so_many_normal_young_until_sure(
    prior: float, partner: Prior, under_5: int, under_1: int
) -> None:
    found = ways(prior, partner)
    assert (needed(found, 0.05), needed(found, 0.01)) == (under_5, under_1)


def test_two_possible_hets_leave_a_doubt_that_never_falls_below_two_fifths() -> None:
    """66 % x 66 %: of pairs without a visual 2/9 + 2/9 + 1/9 remain, 2/9 of them hers: 2/5."""
    found = ways(2 / 3, perhaps("S", 2 / 3))
    assert lowest(found) == pytest.approx(2 / 5)
    assert needed(found, 0.05) is None
    assert carries(found, 500) == pytest.approx(2 / 5)
    assert carries(found, 6) == pytest.approx(2777 / 5849, abs=1e-12)


def test_one_that_shows_it_settles_it() -> None:
    assert carries(ways(0.5, KNOWN_HET), 3, 1) == pytest.approx(1.0)
    assert carries(ways(0.5, perhaps("S", 0.0)), 0, 1) is None  # that pair cannot have one


def test_the_chance_of_at_least_one_is_weighed_over_what_she_may_be() -> None:
    """50 % het x visual: 1/2 (1 - 2^-6) = 63/128."""
    assert any_shows(ways(0.5, VISUAL), 6) == pytest.approx(63 / 128, abs=1e-12)


@given(st.floats(0.01, 0.99), st.floats(0.01, 1.0), st.integers(0, 40))
def test_each_normal_young_makes_it_less_likely_and_never_less_than_the_lowest(
    mine: float, theirs: float, count: int
) -> None:
    found = ways(mine, perhaps("S", theirs))
    now, then = carries(found, count), carries(found, count + 1)
    assert now is not None and then is not None
    assert lowest(found) - 1e-9 <= then <= now + 1e-12
