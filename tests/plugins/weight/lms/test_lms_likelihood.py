"""The LMS likelihood: slopes and expected information against what they stand for."""

from __future__ import annotations

import numpy as np
import pytest

from warmside.plugins.weight.lms.likelihood import Optimum, Term, maximise

ONE = np.array([[0.0]])


def _fitted(y: np.ndarray) -> Optimum:
    """One age: a constant for each of L, ln M and ln S, without penalty."""
    term = Term(np.ones((len(y), 1)), ONE, 0)
    start = np.array([0.0, np.log(np.median(y)), np.log(np.std(np.log(y)))])
    return maximise(y, (term, term, term), start)


@pytest.mark.parametrize("power", [-0.8, 0.0, 0.6])
def test_at_the_maximum_the_slopes_cancel_and_the_truth_is_near(power: float) -> None:
    """Drawn with M 200, S 0.12, 20,000 masses: within five standard errors."""
    z = np.random.default_rng(4).standard_normal(20_000)
    s = 0.12
    y = 200 * (np.exp(s * z) if power == 0 else (1 + power * s * z) ** (1 / power))
    found = _fitted(y)
    assert found.scores.sum(axis=0) == pytest.approx(0, abs=0.05)
    off = np.concatenate(found.coefficients) - [power, np.log(200), np.log(s)]
    errors = np.sqrt(np.diag(np.linalg.inv(found.information)))
    assert np.all(np.abs(off) < 5 * errors)


def test_the_information_is_the_spread_of_the_slopes() -> None:
    """The identity of Fisher's information, at L 0 where the expected form is exact."""
    y = 200 * np.exp(0.12 * np.random.default_rng(8).standard_normal(200_000))
    found = _fitted(y)
    spread = found.scores.T @ found.scores
    scale = np.sqrt(np.diag(spread))
    assert found.information / np.outer(scale, scale) == pytest.approx(
        spread / np.outer(scale, scale), abs=0.03
    )
