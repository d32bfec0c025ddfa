"""Least squares against NumPy, hard cases, and the edge of the domain."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from warmside.core.figures.least_squares import Matrix, Vector, inverse, least_squares


def _line(x: list[float], y: list[float]):  # type: ignore[no-untyped-def]
    def evaluate(p) -> tuple[Vector, Matrix]:  # type: ignore[no-untyped-def]
        return [b - p[0] - p[1] * a for a, b in zip(x, y, strict=True)], [[1.0, a] for a in x]

    return evaluate


@given(st.lists(st.floats(-50, 50), min_size=4, max_size=12))
def test_a_straight_line_is_that_of_numpy(y: list[float]) -> None:
    """One linear problem, many right sides."""
    x = [float(i) for i in range(len(y))]
    found = least_squares(_line(x, y), (0.0, 0.0))
    assert found is not None and found.converged
    slope, intercept = np.polyfit(x, y, 1)
    assert found.parameters == pytest.approx((intercept, slope), abs=1e-6)


def test_a_start_outside_the_domain_has_no_fit() -> None:
    """None instead of an error."""
    assert least_squares(lambda p: None, (1.0,)) is None


def test_what_the_data_do_not_fix_is_not_called_converged() -> None:
    """Two parameters that do the same."""

    def evaluate(p) -> tuple[Vector, Matrix]:  # type: ignore[no-untyped-def]
        return [1.0 - p[0] - p[1], 2.0 - p[0] - p[1]], [[1.0, 1.0], [1.0, 1.0]]

    found = least_squares(evaluate, (0.0, 0.0))
    assert found is not None
    assert not found.converged and found.spread is None


def test_the_banana_valley_is_followed_to_its_end() -> None:
    """Rosenbrock's function as least squares, a standard hard case."""

    def evaluate(p) -> tuple[Vector, Matrix]:  # type: ignore[no-untyped-def]
        return [-10 * (p[1] - p[0] ** 2), -(1 - p[0])], [[-20 * p[0], 10.0], [-1.0, 0.0]]

    found = least_squares(evaluate, (-1.2, 1.0))
    assert found is not None and found.converged
    assert found.parameters == pytest.approx((1.0, 1.0), abs=1e-8)


@given(st.lists(st.floats(-3, 3), min_size=9, max_size=9))
def test_the_inverse_is_that_of_numpy(cells: list[float]) -> None:
    """For symmetric positive matrices."""
    half = np.array(cells).reshape(3, 3)
    matrix = half.T @ half + np.eye(3)
    found = inverse(matrix)
    assert np.array(found) == pytest.approx(np.linalg.inv(matrix), abs=1e-8)


def test_a_singular_matrix_has_no_inverse() -> None:
    """None, not a division by zero."""
    assert inverse(np.array([[0.0, 0.0], [0.0, 1.0]])) is None
    assert inverse(np.array([[1.0, 2.0], [2.0, 4.0]])) is None


def test_a_search_that_ends_at_the_edge_of_the_domain_is_not_called_converged() -> None:
    """The least squares would lie at 2, and beyond 1 there is nothing."""

    def evaluate(p) -> tuple[Vector, Matrix] | None:  # type: ignore[no-untyped-def]
        return ([2.0 - p[0], 2.1 - p[0]], [[1.0], [1.0]]) if p[0] <= 1 else None

    found = least_squares(evaluate, (0.0,))
    assert found is not None
    assert not found.converged and found.parameters[0] <= 1


def test_a_perfect_fit_is_converged() -> None:
    """Nothing is left but rounding."""
    x = [0.0, 1.0, 2.0, 3.0]
    found = least_squares(_line(x, [1.1 + 0.3 * a for a in x]), (0.0, 0.0))
    assert found is not None and found.converged
    assert found.parameters == pytest.approx((1.1, 0.3), abs=1e-12)
