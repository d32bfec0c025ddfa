"""Many weighings at once give what one at a time gives."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from warmside.api import BadInput
from warmside.plugins.weight.lms.lms import LmsCurve, score
from warmside.plugins.weight.lms.many import z_scores

CURVE = LmsCurve(
    (0.0, 30.0, 100.0, 400.0), (0.0, 0.3, -0.5, 0.0), (30, 50, 130, 330), (0.1, 0.2, 0.15, 0.1)
)
weighing = st.tuples(st.floats(5, 900), st.floats(0, 400))


@settings(max_examples=60)
@given(st.lists(weighing, min_size=1, max_size=40), st.booleans())
def test_each_z_is_that_of_the_single_weighing(rows: list[tuple[float, float]], tail: bool) -> None:
    """Also at the ages of the rows, at L of zero and in the tails."""
    rows = [*rows, (30.0, 0.0), (300.0, 400.0), (60.0, 30.0)]
    many = z_scores([m for m, _ in rows], [a for _, a in rows], CURVE, tail=tail)
    single = [score(m, CURVE.at(a), tail=tail).z for m, a in rows]
    assert many == pytest.approx(np.array(single), rel=1e-9, abs=1e-9)


def test_blocks_do_not_show_at_their_seams() -> None:
    """More weighings than one block holds."""
    rng = np.random.default_rng(5)
    masses, ages = rng.uniform(20, 400, 40_000), rng.uniform(0, 400, 40_000)
    many = z_scores(masses, ages, CURVE)
    for i in (0, 16_383, 16_384, 32_768, 39_999):
        assert many[i] == pytest.approx(score(masses[i], CURVE.at(ages[i])).z, rel=1e-9)


AGES = st.floats(0, 4000).map(lambda age: round(age, 9))  # 86 microseconds apart at the least


@settings(max_examples=40)
@given(st.lists(AGES, min_size=1, max_size=30, unique=True), st.data())
def test_any_spacing_of_ages_interpolates_alike(knots: list[float], data: st.DataObject) -> None:
    """Even, uneven, hair-narrow: as the single weighing does, ends included."""
    knots.sort()
    medians = tuple(30.0 + i for i in range(len(knots)))
    curve = LmsCurve(tuple(knots), (-0.3,) * len(knots), medians, (0.1,) * len(knots))
    inside = st.floats(knots[0], knots[-1])
    ages = [*knots, *data.draw(st.lists(inside, max_size=10))]
    single = [score(40.0, curve.at(age)).z for age in ages]
    assert z_scores(40.0, ages, curve) == pytest.approx(np.array(single), abs=1e-6)


def test_one_age_serves_many_masses() -> None:
    """A scalar is broadcast."""
    assert z_scores([100.0, 130.0], 100.0, CURVE).shape == (2,)
    one = LmsCurve((30.0,), (0.0,), (50.0,), (0.1,))
    assert z_scores(50.0, 30.0, one) == pytest.approx(0.0)


@pytest.mark.parametrize(
    ("masses", "ages", "told"),
    [([0.0], [30.0], "mass of zero"), ([50.0], [401.0], "outside"), ([50.0], [np.nan], "outside")],
)
def test_what_cannot_be_scored_is_refused(
    masses: list[float], ages: list[float], told: str
) -> None:
    """As for a single weighing."""
    with pytest.raises(BadInput, match=told):
        z_scores(masses, ages, CURVE)
