"""Scores and centiles of one weighing."""

from __future__ import annotations

import math

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from warmside.api import BadInput
from warmside.plugins.weight.lms.lms import (
    Lms,
    LmsCurve,
    centile_of,
    check_lms,
    mass_at,
    score,
    z_of_centile,
)

CURVE = LmsCurve((0.0, 100.0, 300.0), (0.2, -0.4, -0.4), (30.0, 130.0, 330.0), (0.1, 0.2, 0.1))
lms_values = st.builds(
    Lms,
    st.floats(-3, 3) | st.sampled_from([0.0, 1e-13, -1e-9, 1e-6]),
    st.floats(0.5, 5000),
    st.floats(0.02, 0.4),
)


@given(lms_values, st.floats(-6, 6), st.booleans())
def test_a_mass_scores_back_to_its_z(lms: Lms, z: float, tail: bool) -> None:
    """Round trip of z and mass, in the middle and in both tails."""
    try:
        mass = mass_at(z, lms, tail=tail)
    except BadInput:
        assume(False)
    assume(1e-6 * lms.m_g < mass < 1e6 * lms.m_g)
    assume(1 + lms.l * lms.s * z > 1e-3 or tail)
    assert score(mass, lms, tail=tail).z == pytest.approx(z, abs=1e-6)


@given(lms_values, st.floats(0.3, 3), st.floats(1.0001, 1.5), st.booleans())
def test_a_heavier_animal_has_a_higher_z(lms: Lms, part: float, more: float, tail: bool) -> None:
    """The score rises with mass, also across the place where the tail rule takes over."""
    light, heavy = part * lms.m_g, part * more * lms.m_g
    assume(heavy < 100 * lms.m_g)
    low, high = score(light, lms, tail=tail), score(heavy, lms, tail=tail)
    assert low.z < high.z
    assert low.centile <= high.centile


@given(lms_values)
def test_the_tail_rule_joins_without_a_step(lms: Lms) -> None:
    """Just within and just beyond 3 SD the masses agree."""
    assume(1 - 3.01 * abs(lms.l) * lms.s > 0.01)
    for side in (-1, 1):
        inner, outer = mass_at(side * (3 - 1e-9), lms), mass_at(side * (3 + 1e-9), lms)
        assert inner == pytest.approx(outer, rel=1e-6)


def test_the_median_scores_zero_at_centile_fifty() -> None:
    """z 0, centile 50, without the tail rule."""
    found = score(130.0, CURVE.at(100))
    assert (found.z, found.centile, found.tail_rule) == (0.0, 50.0, False)


def test_the_tail_rule_is_told_where_it_was_applied() -> None:
    """Only beyond 3 SD, and never when it is switched off."""
    lms = Lms(-0.16, 9.4765, 0.11218624)
    assert score(14.0, lms).tail_rule
    assert not score(14.0, lms, tail=False).tail_rule
    assert not score(9.7, lms).tail_rule


def test_between_two_ages_all_three_are_linear() -> None:
    """Halfway between the rows for 0 and 100 days."""
    found = CURVE.at(50)
    assert (found.l, found.m_g, found.s) == pytest.approx((-0.1, 80.0, 0.15))


@pytest.mark.parametrize("age", [0.0, 100.0, 300.0])
def test_at_a_row_the_row_itself_is_given(age: float) -> None:
    """The ends included."""
    i = CURVE.ages_days.index(age)
    assert CURVE.at(age) == Lms(CURVE.l[i], CURVE.m_g[i], CURVE.s[i])


@pytest.mark.parametrize("age", [-0.1, 300.1, math.nan])
def test_outside_the_ages_nothing_is_made_up(age: float) -> None:
    """No extrapolation, and no number for a missing age."""
    with pytest.raises(BadInput, match="outside the reference's 0 to 300 days"):
        CURVE.at(age)


def test_a_curve_of_one_age_holds_at_that_age() -> None:
    """A single row is a reference for that age only."""
    one = LmsCurve((30.0,), (0.0,), (50.0,), (0.1,))
    assert one.at(30) == Lms(0.0, 50.0, 0.1)
    assert not one.covers(31)


@pytest.mark.parametrize("mass", [0.0, -3.0, math.nan, math.inf])
def test_a_mass_that_is_none_cannot_be_scored(mass: float) -> None:
    """Zero, negative, missing, endless."""
    with pytest.raises(BadInput, match="cannot be scored"):
        score(mass, CURVE.at(100))


@pytest.mark.parametrize(("l", "z"), [(-2.5, 4.0), (2.5, -4.0)])
def test_where_no_mass_has_the_z_it_says_so(l: float, z: float) -> None:  # noqa: E741
    """1 + L S z <= 0 has no inverse, with the tail rule or without."""
    lms = Lms(l, 100.0, 0.14)
    for tail in (True, False):
        with pytest.raises(BadInput, match="no mass has a z"):
            mass_at(z, lms, tail=tail)


def test_the_lower_tail_ends_above_zero() -> None:
    """A z so low that its mass would be negative has none."""
    with pytest.raises(BadInput, match="nearer to zero"):
        mass_at(-60, Lms(0.06, 9.6, 0.11))


@pytest.mark.parametrize(
    ("lms", "told"),
    [
        (Lms(0.1, 10, 0.0), "s of 0"),
        (Lms(0.1, 10, -0.1), "s of -0.1"),
        (Lms(0.1, 0.0, 0.1), "m of 0"),
        (Lms(math.nan, 10, 0.1), "l of nan"),
        (Lms(0.1, math.inf, 0.1), "m of inf"),
        (Lms(50, 10, 0.1), "l of 50"),
    ],
)
def test_impossible_lms_values_are_refused(lms: Lms, told: str) -> None:
    """Each with its value."""
    with pytest.raises(BadInput, match=told):
        check_lms(lms)


@given(st.floats(0.001, 99.999))
def test_centile_and_z_are_each_others_inverse(centile: float) -> None:
    """Against the standard library's normal quantile."""
    assert centile_of(z_of_centile(centile)) == pytest.approx(centile, rel=1e-9)


@pytest.mark.parametrize("centile", [0, 100, -1, 120])
def test_a_centile_of_nothing_or_all_has_no_z(centile: float) -> None:
    """0 and 100 are not reached by a normal distribution."""
    with pytest.raises(BadInput, match="between 0 and 100"):
        z_of_centile(centile)
