"""Group sensitivity and sample size."""

from __future__ import annotations

import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st

from warmside.core.values.errors import BadInput
from warmside.plugins.quarantine.odds.groups import population_sensitivity, sample_size

shares = st.floats(0.01, 1.0)


@given(st.integers(1, 400), shares, shares, st.data())
def test_sampling_more_animals_never_finds_less(population, prevalence, se, data):
    n = data.draw(st.integers(0, population - 1))
    for group in (population, None):
        more = population_sensitivity(n + 1, prevalence, se, group)
        assert more >= population_sensitivity(n, prevalence, se, group)


@given(st.one_of(st.none(), st.integers(1, 400)), shares, shares)
@settings(max_examples=80)
def test_the_sample_size_is_the_first_that_reaches_the_target(population, prevalence, se):
    size = sample_size(0.95, prevalence, se, population)
    if size is None:
        assert population is not None
        assert population_sensitivity(population, prevalence, se, population) < 0.95
        return
    assert population_sensitivity(size, prevalence, se, population) >= 0.95
    assume(size > 1)
    assert population_sensitivity(size - 1, prevalence, se, population) < 0.95


def test_a_group_too_small_for_a_weak_test_has_no_sample_size():
    assert sample_size(0.95, 0.2, 0.5, 5) is None


def test_a_small_group_has_at_least_one_infected_animal():
    assert population_sensitivity(5, 0.01, 0.9, 10) == pytest.approx(5 * 0.9 / 10)


def test_none_sampled_finds_nothing():
    assert population_sensitivity(0, 0.1, 0.9) == 0


@pytest.mark.parametrize(
    "arguments",
    [(3, 0, 0.9), (3, 1.2, 0.9), (3, 0.1, 0), (-1, 0.1, 0.9), (9, 0.1, 0.9, 8), (0, 0.1, 0.9, 0)],
)
def test_absurd_groups_are_refused(arguments):
    with pytest.raises(BadInput):
        population_sensitivity(*arguments)


def test_certainty_is_no_target():
    with pytest.raises(BadInput, match="target"):
        sample_size(1, 0.1, 0.9)
