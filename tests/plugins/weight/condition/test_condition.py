"""Body condition from length and mass."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from warmside.api import BadInput
from warmside.plugins.weight.condition.condition import (
    WARNING,
    LengthMass,
    family_curves,
    family_mass,
    scaled_mass_index,
)


def _pairs(rows: list[tuple[float, float]]) -> list[LengthMass]:
    return [LengthMass((i,), length, mass) for i, (length, mass) in enumerate(rows)]


@given(st.floats(1.5, 4.0), st.floats(0.1, 10))
def test_animals_of_one_shape_have_one_index(power: float, factor: float) -> None:
    """Where mass is exactly a power of length, nobody is fatter than another."""
    lengths = [200.0, 260, 310, 400, 520, 610]
    found = scaled_mass_index(_pairs([(x, factor * (x / 300) ** power) for x in lengths]))
    assert found.slope == pytest.approx(power)
    assert found.index_g == pytest.approx([found.index_g[0]] * 6)


def test_a_fatter_animal_has_a_higher_index() -> None:
    """At the same length."""
    rows = [(200.0, 30.0), (260, 62), (310, 110), (400, 230), (520, 520), (520, 640)]
    found = scaled_mass_index(_pairs(rows))
    assert found.index_g[5] > found.index_g[4]


def test_too_few_pairs_say_how_many_are_missing() -> None:
    """Six are needed."""
    with pytest.raises(BadInput, match=r"2 lengths .* needs 6; measure and weigh 4 more times"):
        scaled_mass_index(_pairs([(200, 30), (210, 33)]))


@pytest.mark.parametrize(
    "rows",
    [
        [(200.0, 30.0 + i) for i in range(6)],
        [(200.0 + i, 30.0) for i in range(6)],
        [(200.0 + 10 * i, 60.0 - 3 * i) for i in range(6)],
    ],
)
def test_length_that_does_not_tell_mass_is_refused(rows: list[tuple[float, float]]) -> None:
    """One length, one mass, or heavier the shorter."""
    with pytest.raises(BadInput, match="hardly go together"):
        scaled_mass_index(_pairs(rows))


def test_a_family_curve_comes_with_a_range_as_wide_as_the_trap() -> None:
    """Half to double, and a warning in words."""
    found = family_mass("pythonidae", 1125)
    assert found.value is not None
    assert (found.low, found.high) == (found.value / 2, found.value * 2)
    assert "1.6 to 2 times" in WARNING
    assert "orientation" in found.basis.rule


def test_unknown_families_and_lengths_are_refused() -> None:
    """With the known ones."""
    with pytest.raises(BadInput, match=r"'Draconidae'; there is one for: .*Pythonidae"):
        family_mass("Draconidae", 500)
    with pytest.raises(BadInput, match="length of 0 mm"):
        family_mass("Boidae", 0)


def test_every_row_has_a_source() -> None:
    """And no family stands there twice."""
    curves = family_curves()
    assert all(curve.source.text for curve in curves)
    assert len({curve.family for curve in curves}) == len(curves) > 15
