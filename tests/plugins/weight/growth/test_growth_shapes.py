"""Growth shapes: their slopes, and fits of exact data."""

from __future__ import annotations

from math import exp, log

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from warmside.plugins.weight.growth.fit import fit_shape
from warmside.plugins.weight.growth.shapes import (
    BERTALANFFY_LENGTH,
    BERTALANFFY_MASS,
    GOMPERTZ,
    LOGISTIC,
    SHAPES,
    Shape,
)

SIGMOID = (LOGISTIC, GOMPERTZ, BERTALANFFY_MASS, BERTALANFFY_LENGTH)


@given(
    st.sampled_from(SHAPES),
    st.floats(1, 900),
    st.floats(-3, 8),
    st.floats(-200, 0.5),
    st.floats(2, 6),
)
def test_the_slopes_are_the_derivatives(
    shape: Shape, t: float, log_a: float, middle: float, log_scale: float
) -> None:
    """Against differences."""
    p = [log_a, middle if shape.count == 3 else middle / 1e4, log_scale][: shape.count]
    here = shape.value(t, p)
    assume(here is not None and abs(here[0]) < 50)
    assert here is not None
    for i, slope in enumerate(here[1]):
        h = 1e-6 * max(1.0, abs(p[i]))
        up, down = (shape.value(t, [*p[:i], p[i] + s * h, *p[i + 1 :]]) for s in (1, -1))
        assert up is not None and down is not None
        assert (up[0] - down[0]) / (2 * h) == pytest.approx(slope, rel=1e-4, abs=1e-6)


@pytest.mark.parametrize("shape", SIGMOID, ids=lambda s: s.name)
@pytest.mark.parametrize("raw", [True, False])
def test_exact_data_give_their_parameters_back(shape: Shape, raw: bool) -> None:
    """A whole course of an animal of 800 g."""
    true = (log(800.0), -60.0 if shape.count and "Bert" in shape.name else 200.0, log(150.0))
    days = [float(d) for d in range(0, 900, 45)]
    masses = []
    for day in days:
        here = shape.value(day, true)
        assert here is not None
        masses.append(exp(here[0]))
    found = fit_shape(shape, days, masses, raw=raw)
    assert found is not None and found.fit.converged
    assert found.fit.parameters == pytest.approx(true, rel=1e-6)


def test_weights_of_zero_leave_a_point_out() -> None:
    """As if it had never been weighed."""
    days = [float(d) for d in range(0, 900, 45)]
    masses = [800 / (1 + exp((300 - d) / 120)) for d in days]
    masses[7] *= 3
    weights = [0.0 if i == 7 else 1.0 for i in range(len(days))]
    found = fit_shape(LOGISTIC, days, masses, weights=weights)
    assert found is not None
    assert exp(found.fit.parameters[0]) == pytest.approx(800, rel=1e-6)
    assert found.points == len(days) - 1
