"""What keepers write for food."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from warmside.plugins.feeding.prey.classes import classes_meant, known_prey, prey_classes
from warmside.plugins.feeding.prey.words import tokens


@pytest.mark.parametrize(
    ("text", "codes"),
    [
        ("hopper", ["mouse-hopper"]),
        ("Hoppers", ["mouse-hopper"]),
        ("fuzzies", ["mouse-fuzzy", "rat-fuzzy"]),
        ("lg mouse", ["mouse-large"]),
        ("L. mice", ["mouse-large"]),
        ("adult mouse f/t", ["mouse-adult"]),
        ("med rats", ["rat-medium"]),
        ("jumbo rat", ["rat-very-large"]),
        ("rat pups", ["rat-pup"]),
        ("day old chicks", ["chick-day-old"]),
        ("dubia adult", ["roach-adult"]),
        ("superworms", ["zophobas"]),
        ("nightcrawlers", ["earthworm"]),
        ("quail eggs", ["egg-quail"]),
        ("salad", ["leafy-greens"]),
        ("prepared fruit diet, mixed", ["fruit-diet"]),
        ("goldfish", ["fish-thiaminase"]),
        ("cheeseburger", []),
        ("taken", []),
    ],
)
def test_words_of_the_trade(text: str, codes: list[str]) -> None:
    """Plain words of the trade: common practice, no source."""
    assert [p.code for p in classes_meant(text)] == codes


@pytest.mark.parametrize("code", prey_classes())
def test_each_class_is_known_by_code_name_and_every_word_of_its_own(code: str) -> None:
    prey = prey_classes()[code]
    assert [known_prey(w) for w in (code, prey.name, *prey.words)] == [prey] * (2 + len(prey.words))


@given(st.text(max_size=30))
def test_any_text_is_read_without_complaint(text: str) -> None:
    assert all(word == word.lower() for word in tokens(text))
    assert all(p in prey_classes().values() for p in classes_meant(text))
