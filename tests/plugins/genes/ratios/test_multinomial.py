"""The exact multinomial test against printed values and SciPy."""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction
from itertools import product
from math import comb

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy import stats

from warmside.plugins.genes.ratios.drawn import drawn_chance
from warmside.plugins.genes.ratios.multinomial import chance_as_odd


def ratio(*shares: int) -> list[Fraction]:
    return [Fraction(s) for s in shares]


@pytest.mark.parametrize(
    ("seen", "expected", "chance"),
    [
        # Bechtel's corn snakes, F2 of amelanistic, counts by the Ratsnake Foundation's page;
        # the others by exact fractions, checked with SciPy 1.17.1
        ((17, 7), (3, 1), 0.639236),
        ((6, 6), (3, 1), Fraction(1444159, 16777216)),
        ((12, 0), (3, 1), Fraction(770563, 16777216)),
        ((1, 7), (1, 1), Fraction(9, 128)),
        ((0, 8), (1, 1), Fraction(1, 128)),
        ((9, 1), (1, 1), Fraction(11, 512)),
        ((5, 2, 1), (1, 2, 1), Fraction(157, 2048)),
        ((0, 4, 4), (1, 2, 1), Fraction(291, 2048)),
        ((2, 2, 0, 4), (1, 1, 1, 1), Fraction(2417, 8192)),
        ((3, 2, 4, 3), (9, 3, 3, 1), 0.018124),
        ((5, 3), (2, 1), 1),
    ],
)
def test_worked_cases(
    seen: Sequence[int], expected: Sequence[int], chance: Fraction | float
) -> None:
    found = chance_as_odd(seen, ratio(*expected))
    if isinstance(chance, float):
        assert float(found) == pytest.approx(chance, abs=5e-7)
    else:
        assert found == chance


def test_a_printed_example() -> None:
    """84, 11, 4, 1 on the classes of Poisson(0.2), to six places: p .01991.

    Engels 2015, vignette of an R package for the exact multinomial test (CRAN).
    """
    found = chance_as_odd((84, 11, 4, 1), ratio(818731, 163746, 16375, 1148))
    assert float(found) == pytest.approx(0.01991, abs=2e-5)


def test_mendel_s_peas() -> None:
    """556 peas, round or wrinkled and yellow or green (Mendel 1866): p .9382.

    The p is printed in Engels 2015; 7,324 round or wrinkled ones against SciPy.
    """
    found = chance_as_odd((315, 108, 101, 32), ratio(9, 3, 3, 1))
    assert float(found) == pytest.approx(0.938222, abs=5e-7)
    seeds = chance_as_odd((5474, 1850), ratio(3, 1))
    assert float(seeds) == pytest.approx(stats.binomtest(5474, 7324, 3 / 4).pvalue, rel=1e-9)


def test_draws_come_to_the_same_within_their_limits() -> None:
    for seen, shares in (((315, 108, 101, 32), (9, 3, 3, 1)), ((17, 7), (3, 1))):
        exact = float(chance_as_odd(seen, ratio(*shares)))
        chance, low, high = drawn_chance(seen, ratio(*shares))
        assert low <= exact <= high
        assert chance == pytest.approx(exact, abs=0.005)


@settings(max_examples=40, deadline=None)
@given(st.integers(0, 30), st.integers(0, 30), st.integers(1, 15), st.integers(1, 15))
def test_two_classes_are_the_binomial_test_of_scipy(a: int, b: int, one: int, other: int) -> None:
    """scipy.stats.binomtest, two-sided, which adds up what is not likelier too."""
    if a + b:
        theirs = stats.binomtest(a, a + b, one / (one + other)).pvalue
        assert float(chance_as_odd((a, b), ratio(one, other))) == pytest.approx(theirs, rel=1e-9)


@settings(max_examples=25, deadline=None)
@given(
    st.lists(st.integers(0, 5), min_size=3, max_size=4),
    st.lists(st.integers(1, 9), min_size=4, max_size=4),
)
def test_more_classes_are_the_sum_over_scipy_s_multinomial(
    seen: list[int], shares: list[int]
) -> None:
    shares, young = shares[: len(seen)], sum(seen)
    law = stats.multinomial(young, [s / sum(shares) for s in shares])
    every = [c for c in product(range(young + 1), repeat=len(seen)) if sum(c) == young]
    assert len(every) == comb(young + len(seen) - 1, len(seen) - 1)
    chances = law.pmf(every)
    theirs = chances[chances <= law.pmf(seen) * (1 + 1e-9)].sum()
    assert float(chance_as_odd(seen, ratio(*shares))) == pytest.approx(theirs, rel=1e-8)


@given(st.lists(st.integers(0, 6), min_size=2, max_size=3), st.integers(1, 7))
def test_the_scale_of_the_ratio_and_the_order_of_the_classes_do_not_matter(
    seen: list[int], times: int
) -> None:
    shares = [Fraction(n + 1, 3) for n in range(len(seen))]
    found = chance_as_odd(seen, shares)
    assert 0 < found <= 1
    assert chance_as_odd(seen, [s * times for s in shares]) == found
    assert chance_as_odd(seen[::-1], shares[::-1]) == found


def test_a_class_that_should_be_empty_is_impossible() -> None:
    assert chance_as_odd((3, 1), ratio(1, 0)) == 0
    assert chance_as_odd((4, 0), ratio(1, 0)) == 1
