"""What is asked about a meal before it is recorded."""

from __future__ import annotations

import pytest

from warmside.core.values.quantities import Display
from warmside.plugins.feeding.care.rules import rules_with
from warmside.plugins.feeding.care.species import species_rows
from warmside.plugins.feeding.meals.doubts import Meal, questions

RULES = rules_with({}, Display.METRIC)
ROWS = species_rows()
KING = ROWS["Lampropeltis californiae"]
EGG_EATER = ROWS["Dasypeltis"]


def mice(count: int = 1) -> Meal:
    return Meal("mouse-adult", count, 25.0 * count)


def test_a_usual_meal_raises_no_question() -> None:
    assert questions(mice(), 300, KING, 100, RULES) == ()


def test_a_meal_heavier_than_the_animal_is_asked_about() -> None:
    (asked,) = questions(mice(3), 60, KING, None, RULES)
    assert asked == "a meal of 75 g is heavier than the animal (60 g)"


def test_an_imperial_collection_is_asked_in_ounces() -> None:
    (asked,) = questions(mice(), 20, KING, None, rules_with({}, Display.IMPERIAL))
    assert asked == "a meal of 0.882 oz is heavier than the animal (0.705 oz)"


def test_a_meal_far_above_the_usual_share_is_asked_about() -> None:
    (asked,) = questions(mice(3), 260, KING, None, RULES)
    assert "is 29 % of the animal (260 g); usual are 5.9 to 8.6 %" in asked
    assert questions(mice(2), 260, KING, None, RULES) == ()


def test_twenty_mice_are_asked_about_also_without_a_weight() -> None:
    assert questions(mice(20), None, KING, None, RULES) == ("20 × adult mouse in one meal",)
    assert len(questions(mice(20), 535, KING, None, RULES)) == 2


def test_prey_wider_than_the_rule_is_asked_about() -> None:
    assert "mm wide" in questions(mice(), 300, KING, 45, RULES)[0]


def test_without_weight_and_girth_nothing_is_asked() -> None:
    assert questions(mice(3), None, None, None, RULES) == ()


@pytest.mark.parametrize(
    ("latin", "item"),
    [
        ("Uromastyx", "adult cricket"),
        ("Iguana iguana", "pinky mouse"),
        ("Dasypeltis", "hopper"),
        ("Testudo hermanni", "snail"),
    ],
)
def test_food_that_its_species_does_not_eat_is_asked_about(latin: str, item: str) -> None:
    (asked,) = questions(Meal(item), None, ROWS[latin], None, RULES)
    assert f"for {ROWS[latin].common}, which eats" in asked


@pytest.mark.parametrize(
    ("latin", "item"),
    [("Uromastyx", "dandelion"), ("Dasypeltis", "quail eggs"), ("Gekko gecko", "pinky mouse")],
)
def test_food_that_it_does_eat_is_not(latin: str, item: str) -> None:
    assert questions(Meal(item), None, ROWS[latin], None, RULES) == ()


def test_a_word_that_is_no_food_is_asked_about_and_a_vague_one_too() -> None:
    (unknown,) = questions(Meal("cheeseburger"), 300, KING, None, RULES)
    assert "no food that is known here" in unknown and "feeding word set" in unknown
    (counted,) = questions(Meal("8 adult crickets"), 60, None, None, RULES)
    assert counted.endswith("write 8 x adult crickets")
    (vague,) = questions(Meal("fuzzies"), 300, KING, None, RULES)
    assert vague.endswith("write which: mouse-fuzzy, rat-fuzzy")
    assert questions(Meal("mouse"), 300, KING, None, RULES) == (), "of one kind, if of no class"


def test_a_part_of_the_diet_may_be_recorded_by_its_name() -> None:
    box = ROWS["Terrapene carolina"]
    assert questions(Meal("animal food"), 300, box, None, RULES) == ()
    assert questions(Meal("animal food"), 300, KING, None, RULES) != ()


def test_a_word_for_several_classes_of_one_kind_is_asked_about_as_the_least_of_them() -> None:
    """Twenty mice are twenty mice, and an egg-eating snake eats none, whatever their size."""
    asked = questions(Meal("mouse", 20), 535, KING, None, RULES)
    assert "20 × mouse in one meal" in asked
    assert questions(Meal("mouse", 1), 535, KING, None, RULES) == ()
    assert "mouse for" in questions(Meal("mouse"), 60, EGG_EATER, None, RULES)[0]
