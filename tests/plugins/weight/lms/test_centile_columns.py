"""L, M and S from printed centiles."""

from __future__ import annotations

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from warmside.api import BadInput
from warmside.plugins.weight.lms.centile_columns import lms_of_centiles
from warmside.plugins.weight.lms.lms import Lms, mass_at, z_of_centile


@given(
    st.floats(-1.5, 1.5),
    st.floats(1, 5000),
    st.floats(0.04, 0.3),
    st.sampled_from([(3, 50, 97), (5, 25, 50, 75, 95), (10, 40, 90)]),
)
def test_the_lms_behind_exact_centiles_is_found(
    l: float,  # noqa: E741
    m: float,
    s: float,
    centiles: tuple[int, ...],
) -> None:
    """Three fix it, more agree; the median need not be among them."""
    assume(1 - 2 * abs(l) * s > 0.2)
    lms = Lms(l, m, s)
    found = lms_of_centiles({c: mass_at(z_of_centile(c), lms) for c in centiles})
    assert found.l == pytest.approx(l, abs=1e-5)
    assert found.m_g == pytest.approx(m, rel=1e-7)
    assert found.s == pytest.approx(s, rel=1e-6)


@pytest.mark.parametrize(
    ("centiles", "told"),
    [
        ({3: 20, 50: 20, 97: 40}, "do not rise"),
        ({3: 30, 50: 20, 97: 40}, "do not rise"),
        ({3: 0, 50: 20, 97: 40}, "not above zero"),
        ({3: 10, 10: 10.1, 50: 20, 90: 20.1, 97: 40}, "no l, m, s comes near"),
    ],
)
def test_centiles_that_cannot_be_are_refused(centiles: dict[float, float], told: str) -> None:
    """Falling, zero, or shaped like no distribution."""
    with pytest.raises(BadInput, match=told):
        lms_of_centiles(centiles)
