"""P(free) of one animal: order, limits, targets, bad figures."""

from __future__ import annotations

import math

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from warmside.core.values.errors import BadInput
from warmside.plugins.quarantine.odds.freedom import (
    Evidence,
    Negatives,
    free_range,
    negatives_needed,
    probability_free,
    probability_free_after,
)

shares = st.floats(0.001, 0.999)
counts = st.integers(0, 60)


@given(shares, shares, counts)
def test_more_negatives_never_lower_it(prior, se, k):
    assert probability_free(prior, se, 1.0, k + 1) >= probability_free(prior, se, 1.0, k)


@given(shares, shares, shares, counts)
def test_a_better_test_never_lowers_it(prior, a, b, k):
    worse, better = sorted((a, b))
    assert probability_free(prior, better, 1.0, k) >= probability_free(prior, worse, 1.0, k)


@given(shares, shares, shares, counts)
def test_a_commoner_infection_never_raises_it(a, b, se, k):
    rare, common = sorted((a, b))
    assert probability_free(common, se, 1.0, k) <= probability_free(rare, se, 1.0, k)


@given(shares, shares, shares, st.sampled_from([0.9, 0.95, 0.99, 0.999]))
def test_the_number_needed_is_the_first_that_reaches_the_target(prior, se, sp, target):
    needed = negatives_needed(prior, se, sp, target)
    assume(needed is not None)
    assert probability_free(prior, se, sp, needed) >= target
    if needed:
        assert probability_free(prior, se, sp, needed - 1) < target


@given(shares, shares, shares, counts)
def test_tests_of_two_kinds_weigh_as_one_after_the_other(prior, a, b, k):
    both = probability_free_after(prior, [Negatives(a, 1.0, k), Negatives(b, 1.0, 2)])
    first = probability_free(prior, a, 1.0, k)
    then = probability_free(1 - first, b, 1.0, 2)
    assert both == pytest.approx(then, abs=1e-9)


@given(shares, shares, shares, counts, shares, shares)
def test_the_range_holds_every_figure_between_its_ends(a, b, x, k, se, p):
    low, high = sorted((a, se))
    prior_low, prior_high = sorted((b, p))
    found = free_range(prior_low, prior_high, [Evidence(low, high, 1.0, k)])
    inside = probability_free(
        prior_low + x * (prior_high - prior_low), low + x * (high - low), 1.0, k
    )
    assert found.low - 1e-9 <= inside <= found.high + 1e-9


def test_without_tests_it_is_the_prior():
    assert probability_free(0.38, 0.9, 1.0, 0) == pytest.approx(0.62)


def test_nothing_to_find_and_everything_infected():
    assert probability_free(0, 0.5, 0.9, 3) == 1
    assert probability_free(1, 0.5, 1.0, 3) == 0
    assert negatives_needed(1, 0.5, 1.0, 0.95) is None
    assert negatives_needed(0, 0.5, 1.0, 0.95) == 0


def test_a_perfect_test_needs_one_negative():
    assert probability_free(0.4, 1.0, 1.0, 1) == 1
    assert negatives_needed(0.4, 1.0, 1.0, 0.99) == 1


def test_a_specificity_below_one_lowers_what_a_negative_tells():
    assert probability_free(0.2, 0.7, 0.9, 2) < probability_free(0.2, 0.7, 1.0, 2)


@pytest.mark.parametrize("specificity", [0.3, 0.2])
def test_a_test_no_better_than_chance_never_reaches_the_target(specificity):
    assert negatives_needed(0.2, 0.7, specificity, 0.95) is None


def test_thousands_of_negatives_do_not_overflow():
    assert probability_free(0.5, 0.001, 0.0001, 100_000) == 0
    assert probability_free(0.5, 0.9, 0.2, 100_000) == 1


@pytest.mark.parametrize("prior", [-0.01, 1.01, math.nan, math.inf, True, "0.1"])
def test_a_prior_outside_0_to_1_is_refused(prior):
    with pytest.raises(BadInput, match="prior"):
        probability_free(prior, 0.5, 1.0, 1)


def test_a_percentage_is_pointed_out():
    with pytest.raises(BadInput, match=r"give 5 % as 0\.05"):
        probability_free(5, 0.5, 1.0, 1)


@pytest.mark.parametrize("sensitivity", [0, -0.2, 1.2])
def test_a_sensitivity_of_nothing_or_too_much_is_refused(sensitivity):
    for negatives in (0, 1):
        with pytest.raises(BadInput, match="sensitivity"):
            probability_free(0.1, sensitivity, 1.0, negatives)


@pytest.mark.parametrize(("specificity", "negatives"), [(0, 1), (1.5, 1), (1, -1), (1, 2.5)])
def test_other_absurd_figures_are_refused(specificity, negatives):
    with pytest.raises(BadInput):
        probability_free(0.1, 0.5, specificity, negatives)


def test_results_that_cannot_happen_are_refused():
    with pytest.raises(BadInput, match="cannot give a negative"):
        probability_free(1, 1.0, 1.0, 1)


@pytest.mark.parametrize("target", [0, 1, 1.5])
def test_certainty_is_no_target(target):
    with pytest.raises(BadInput, match="target"):
        negatives_needed(0.1, 0.5, 1.0, target)


def test_ranges_upside_down_are_refused():
    with pytest.raises(BadInput, match="upside down"):
        free_range(0.4, 0.2, [])
    with pytest.raises(BadInput, match="upside down"):
        free_range(0.2, 0.4, [Evidence(0.9, 0.5, 1.0, 1)])
