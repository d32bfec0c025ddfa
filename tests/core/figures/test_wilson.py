"""Wilson's interval of a share."""

from __future__ import annotations

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy import stats

from warmside.core.figures.wilson import wilson_interval
from warmside.core.values.errors import BadInput

CONFIDENCES = st.sampled_from([0.8, 0.9, 0.95, 0.99])


@given(st.integers(1, 2000), st.data(), CONFIDENCES)
@settings(max_examples=60)
def test_it_agrees_with_scipy(sampled: int, data: st.DataObject, confidence: float) -> None:
    """scipy.stats.binomtest(...).proportion_ci(method="wilson"), an independent reading."""
    cases = data.draw(st.integers(0, sampled))
    theirs = stats.binomtest(cases, sampled).proportion_ci(confidence, method="wilson")
    assert wilson_interval(cases, sampled, confidence) == pytest.approx(tuple(theirs), abs=1e-12)


@given(st.integers(1, 500), st.data())
def test_the_share_lies_in_its_interval_and_no_case_may_still_be_none(
    sampled: int, data: st.DataObject
) -> None:
    cases = data.draw(st.integers(0, sampled))
    low, high = wilson_interval(cases, sampled)
    assert 0 <= low <= cases / sampled <= high <= 1
    assert (low == 0) == (cases == 0) and (high == 1) == (cases == sampled)


@pytest.mark.parametrize(("cases", "sampled"), [(0, 0), (5, 4), (-1, 4), (1, -4)])
def test_impossible_counts_have_no_interval(cases: int, sampled: int) -> None:
    with pytest.raises(BadInput, match="cases among"):
        wilson_interval(cases, sampled)


@pytest.mark.parametrize("confidence", [0, 1, -0.5, 2, float("nan")])
def test_certainty_has_no_interval(confidence: float) -> None:
    with pytest.raises(BadInput, match="confidence"):
        wilson_interval(1, 2, confidence)
