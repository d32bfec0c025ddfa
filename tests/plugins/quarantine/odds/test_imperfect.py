"""Cut-points of an imperfect test in a group: order, limits, absurd values."""

from __future__ import annotations

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from warmside.core.values.errors import BadInput
from warmside.plugins.quarantine.odds.discount import discounted, found_needed, free_after
from warmside.plugins.quarantine.odds.imperfect import (
    GroupTest,
    cut_at,
    cuts,
    likelihoods,
    sample_and_cut,
)

shares = st.floats(0.05, 1.0)
groups = st.builds(GroupTest, shares, shares, st.floats(0.05, 0.9), st.sampled_from([None, 9, 14]))


@settings(max_examples=30)
@given(groups, st.integers(1, 9))
def test_the_chances_of_all_outcomes_add_up(test: GroupTest, sampled: int) -> None:
    each = [likelihoods(test, sampled, k) for k in range(sampled + 1)]
    assert sum(i for i, _ in each) == pytest.approx(1)
    assert sum(f for _, f in each) == pytest.approx(1)


@settings(max_examples=30)
@given(groups, st.integers(2, 9))
def test_a_higher_cut_point_finds_less_and_passes_more(test: GroupTest, sampled: int) -> None:
    low, high = cut_at(test, sampled, 1), cut_at(test, sampled, 2)
    assert high.found <= low.found + 1e-12
    assert high.passed >= low.passed - 1e-12


def test_the_cut_points_end_at_the_first_that_a_free_group_passes() -> None:
    tried = list(cuts(GroupTest(0.9, 0.9, 0.2), 10, 0.95))
    assert [c.positives for c in tried] == [1, 2, 3, 4]
    assert tried[-2].passed < 0.95 <= tried[-1].passed


def test_a_group_too_small_for_the_target_has_no_sample() -> None:
    assert sample_and_cut(GroupTest(0.9, 0.9, 0.05, 20), 0.95, 0.95) is None


@pytest.mark.parametrize("wrong", [(0, 0.9, 0.1), (0.9, 0, 0.1), (0.9, 0.9, 0), (0.9, 0.9, 0.1, 0)])
def test_absurd_tests_are_refused(wrong: tuple) -> None:
    with pytest.raises(BadInput):
        GroupTest(*wrong)


@pytest.mark.parametrize("wrong", [(0, 1), (11, 1), (5, 6), (5, 0)])
def test_absurd_cut_points_are_refused(wrong: tuple[int, int]) -> None:
    with pytest.raises(BadInput):
        cut_at(GroupTest(0.9, 0.9, 0.1, 10), *wrong)


@given(st.floats(0.01, 0.99), st.floats(0.5, 0.99), st.floats(0.5, 1))
def test_the_needed_sensitivity_just_reaches_the_target(
    free: float, target: float, passed: float
) -> None:
    needed = found_needed(free, target, passed)
    assert needed is not None
    if needed > 0:
        assert free_after(free, needed, passed) == pytest.approx(target)


def test_nothing_is_known_of_a_group_that_was_never_free() -> None:
    assert found_needed(0, 0.95) is None
    assert free_after(0, 0.9) == 0
    assert discounted(0.9, 1) == 0
