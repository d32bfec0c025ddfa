"""For how long a meal weighs in the gut, by the kind of animal."""

from __future__ import annotations

import pytest

from warmside.plugins.weight.course.digestion import digestion_days
from warmside.plugins.weight.course.limits import DEFAULTS


def test_a_small_lizard_is_empty_when_an_even_gut_of_its_mean_passage_is() -> None:
    """Waldschmidt, Jones & Porter 1986 (abstract): 1.2 to 1.8 days on average at 32 °C; what goes
    evenly is gone after twice its mean."""
    assert 2 * 1.2 <= digestion_days("gecko", DEFAULTS) <= 2 * 1.8


@pytest.mark.parametrize("group", ["python", "colubrid", "tortoise", "iguana", "monitor", "other"])
def test_what_eats_large_prey_or_leaves_takes_longer(group: str) -> None:
    assert digestion_days(group, DEFAULTS) > digestion_days("skink", DEFAULTS)
