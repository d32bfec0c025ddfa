"""Prey classes: finding one, its energy and its width."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from warmside.core.values.errors import BadInput
from warmside.plugins.feeding.prey.classes import (
    known_prey,
    prey_classes,
    prey_named,
    prey_of_kinds,
)

codes = st.sampled_from(list(prey_classes()))


@pytest.mark.parametrize(
    "text", ["mouse-adult", "Adult Mouse", " mouse_adult ", "mouse adult", "adult mice"]
)
def test_a_class_is_found_by_code_or_name(text: str) -> None:
    assert prey_named(text).code == "mouse-adult"


def test_the_plural_is_understood() -> None:
    found = [known_prey(t) for t in ("crickets adult", "adult crickets", "soldier fly larvae")]
    assert [p and p.code for p in found] == ["cricket-adult", "cricket-adult", "soldier-fly-larva"]
    assert prey_named("leafy greens").code == "leafy-greens"
    assert known_prey("a friend's leftovers") is None


def test_a_near_miss_is_suggested_and_not_taken() -> None:
    with pytest.raises(BadInput, match=r"no prey class 'mouse-hoper'; did you mean mouse-hopper"):
        prey_named("mouse-hoper")


def test_without_a_near_miss_it_is_said_where_the_classes_are() -> None:
    with pytest.raises(BadInput, match=r"list them: warmside feeding foods"):
        prey_named("zzzzzz")


@given(codes)
def test_every_row_is_sound(code: str) -> None:
    prey = prey_classes()[code]
    assert 0 < prey.mass_g[0] <= prey.typical_g <= prey.mass_g[1]
    assert 0 < prey.kcal_range[0] <= prey.kcal_per_g <= prey.kcal_range[1]
    assert prey.energy_source.text and prey.mass_source.text
    assert prey.vertebrate + prey.insect + prey.plant <= 1
    assert (prey.length_mm is not None) == prey.insect


@given(codes, st.floats(0.01, 1000))
def test_width_and_mass_are_each_others_inverse(code: str, mass_g: float) -> None:
    prey = prey_classes()[code]
    assert prey.mass_at_width(prey.width_mm(mass_g)) == pytest.approx(mass_g)


@given(codes, st.floats(0.01, 1000))
def test_energy_lies_in_its_range(code: str, mass_g: float) -> None:
    prey = prey_classes()[code]
    low, high = prey.kj_range(mass_g, mass_g)
    assert low <= prey.kj(mass_g) <= high


def test_kinds_and_codes_can_be_mixed_in_their_order() -> None:
    found = [p.code for p in prey_of_kinds(("chick", "mouse-adult"))]
    assert found == ["chick-day-old", "mouse-adult"]
