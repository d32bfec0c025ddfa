"""What is asked about a meal before it is recorded."""

from __future__ import annotations

from datetime import date

import pytest

from warmside.core.values.errors import BadInput
from warmside.core.values.quantities import Display
from warmside.plugins.feeding.care.rules import rules_with
from warmside.plugins.feeding.care.species import species_rows
from warmside.plugins.feeding.meals.doubts import check_offer, questions
from warmside.plugins.feeding.meals.records import Offer

DAY = date(2026, 5, 1)
RULES = rules_with({}, Display.METRIC)
KING = species_rows()["Lampropeltis californiae"]


def offer(count: int = 1, eaten: float = 1, each_g: float | None = 25) -> Offer:
    return Offer(DAY, "mouse-adult", count, eaten, each_g)


def test_a_usual_meal_raises_no_question() -> None:
    assert questions(offer(), 300, KING, 100, RULES) == ()


def test_a_meal_heavier_than_the_animal_is_asked_about() -> None:
    (asked,) = questions(offer(count=3, eaten=3), 60, KING, None, RULES)
    assert asked == "a meal of 75 g is heavier than the animal (60 g)"


def test_an_imperial_collection_is_asked_in_ounces() -> None:
    (asked,) = questions(offer(), 20, KING, None, rules_with({}, Display.IMPERIAL))
    assert asked == "a meal of 0.882 oz is heavier than the animal (0.705 oz)"


def test_a_meal_of_more_than_half_the_animal_is_asked_about() -> None:
    assert "is 62 % of the animal" in questions(offer(), 40, KING, None, RULES)[0]


def test_prey_wider_than_the_rule_is_asked_about() -> None:
    assert "mm wide" in questions(offer(), 300, KING, 45, RULES)[0]


def test_without_weight_and_girth_nothing_is_asked() -> None:
    assert questions(offer(count=3, eaten=3), None, None, None, RULES) == ()


def test_a_refused_meal_is_fine() -> None:
    assert check_offer(offer(eaten=0)).code == "mouse-adult"


@pytest.mark.parametrize(
    ("bad", "says"),
    [
        (offer(count=0, eaten=0), "count of 1 or more"),
        (offer(eaten=2), "give 0 to 1"),
        (offer(eaten=-1), "give 0 to 1"),
        (offer(each_g=0), "weigh one"),
        (offer(each_g=float("nan")), "weigh one"),
        (Offer(DAY, "mouse-adut", 1, 1), "did you mean mouse-adult"),
    ],
)
def test_offers_that_cannot_be_are_refused(bad: Offer, says: str) -> None:
    with pytest.raises(BadInput, match=says):
        check_offer(bad)
