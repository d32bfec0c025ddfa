"""Crossing centile lines and leaving the own channel."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from warmside.api import Level, Mark, Source
from warmside.plugins.weight.course.centile_checks import centile_sign, channel
from warmside.plugins.weight.course.series import NONE, Weighings, weighings
from warmside.plugins.weight.course.sign import Sign
from warmside.plugins.weight.lms.lms import LmsCurve, mass_at

HATCHED = 738_000.0
CURVE = LmsCurve((0.0, 400.0, 1000.0), (-0.2, -0.2, -0.2), (40.0, 400.0, 700.0), (0.15,) * 3)
MADE_UP = Source("made up", Mark.INVENTED)


def _at_z(*zs: float, every: float = 28.0, first: float = 30.0) -> Weighings:
    ages = [first + i * every for i in range(len(zs))]
    rows = zip(ages, zs, strict=True)
    return weighings(
        (i, HATCHED + age, mass_at(z, CURVE.at(age))) for i, (age, z) in enumerate(rows)
    )


@given(st.floats(-3, 3), st.integers(0, 30), st.floats(2, 30))
def test_an_animal_on_its_channel_raises_nothing(z: float, count: int, every: float) -> None:
    """At any centile, however often it is weighed."""
    assert centile_sign(_at_z(*[z] * count, every=every), HATCHED, CURVE, MADE_UP) is None


def test_a_fall_over_two_lines_is_to_be_looked_at() -> None:
    """From the median to below the 10th; says the reference and that it is invented."""
    found = centile_sign(_at_z(0, 0.1, -0.1, 0, -1.5), HATCHED, CURVE, MADE_UP)
    assert found is not None
    assert (found.sign, found.level) == (Sign.CENTILE_LINES, Level.LOOK_SOON)
    assert found.events == (0, 1, 2, 3, 4)
    assert "invented example" in found.words and "fallen from about centile" in found.words
    assert found.change == pytest.approx(-1.5, abs=0.06)


def test_leaving_the_channel_within_two_lines_is_told_too() -> None:
    """Far up the scale the lines are wide: centile 99.9 to 98."""
    found = centile_sign(_at_z(3.0, 3.0, 3.0, 3.0, 2.1), HATCHED, CURVE, MADE_UP)
    assert found is not None
    assert (found.sign, found.level) == (Sign.OFF_CHANNEL, Level.LOOK_SOON)


def test_one_line_and_a_wide_shift_is_a_channel_left_not_lines_crossed() -> None:
    """From centile 38 to 16, over the 25th only."""
    found = centile_sign(_at_z(-0.3, -0.3, -0.3, -0.3, -1.0), HATCHED, CURVE, MADE_UP)
    assert found is not None
    assert (found.sign, found.level) == (Sign.OFF_CHANNEL, Level.LOOK_SOON)


def test_a_rise_is_a_note() -> None:
    """Nothing to worry about by itself."""
    found = centile_sign(_at_z(0, 0, 0, 0, 1.5), HATCHED, CURVE, MADE_UP)
    assert found is not None
    assert (found.sign, found.level) == (Sign.CENTILE_LINES, Level.NOTE)


def test_one_line_is_not_enough() -> None:
    """From just above the median to just below the 25th... and half a standard deviation."""
    assert centile_sign(_at_z(-0.5, -0.5, -0.5, -0.5, -0.9), HATCHED, CURVE, MADE_UP) is None


def test_three_earlier_weighings_are_needed() -> None:
    """And those of the last month do not count."""
    assert channel(_at_z(0, 0, -2), HATCHED, CURVE) is None
    assert channel(_at_z(0, 0, 0, -2, every=5), HATCHED, CURVE) is None
    assert channel(NONE, HATCHED, CURVE) is None


def test_beyond_the_reference_nothing_is_said() -> None:
    """Too old, or weighed before the reference begins."""
    assert channel(_at_z(0, 0, 0, 0), HATCHED - 2000, CURVE) is None
    found = channel(_at_z(0, 0, 0, 0, 0, 0), HATCHED + 40, CURVE)
    assert found is not None
    assert found.events == (1, 2, 3, 4, 5)


def test_of_hundreds_of_weighings_a_dozen_are_scored() -> None:
    """Spread over the year."""
    found = channel(_at_z(*[0.0] * 450, every=1.5), HATCHED, CURVE)
    assert found is not None
    assert 6 <= len(found.events) <= 13
    assert found.usual.z == pytest.approx(0, abs=1e-9)
