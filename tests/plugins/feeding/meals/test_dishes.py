"""Rounds of meals and own feeding as a keeper types them."""

from __future__ import annotations

import pytest

from warmside.core.values.errors import BadInput
from warmside.core.values.quantities import Display
from warmside.core.values.units import Unit
from warmside.plugins.feeding.care.own import Own, parse_hours, parse_prey, parse_span
from warmside.plugins.feeding.meals.dishes import (
    Likely,
    check_powder,
    food_meant,
    outcome_word,
    parse_dish,
)
from warmside.plugins.feeding.prey.classes import prey_of_kinds


@pytest.mark.parametrize(
    ("text", "count", "dish"),
    [
        ("mouse-adult", None, ("mouse-adult", 1)),
        ("adult mice", 3, ("mouse-adult", 3)),
        ("2xrat-pup", None, ("rat-pup", 2)),
        ("2 × rat pup", 5, ("rat-pup", 2)),
        ("2 lg mice", None, ("mouse-large", 2)),
        ("5 mealworms", None, ("mealworm", 5)),
    ],
)
def test_a_dish_is_a_count_and_a_class(text: str, count: int | None, dish: tuple[str, int]) -> None:
    found = parse_dish(text, Display.METRIC, count=count)
    assert found.prey is not None and (found.prey.code, found.count) == dish


def test_a_bowl_goes_by_weight() -> None:
    found = parse_dish("30g of greens", Display.METRIC)
    assert (found.item, found.count, found.mass_g) == ("leafy greens", 1, 30)
    assert parse_dish("1oz greens", Display.METRIC).mass_g == pytest.approx(28.35, abs=0.01)


def test_a_vague_word_is_settled_by_what_the_animal_eats() -> None:
    rats, crickets = prey_of_kinds(("rat",)), prey_of_kinds(("cricket",))
    assert food_meant("fuzzies", Likely(eaten=rats)).code == "rat-fuzzy"
    assert food_meant("crickets", Likely(planned=crickets[3:])).code == "cricket-half"
    assert food_meant("crickets", Likely(crickets[1:2], crickets[3:])).code == "cricket-small"
    with pytest.raises(BadInput, match="may be several classes of food; write one of: mouse-fuzzy"):
        food_meant("fuzzies", Likely(planned=rats))


def test_an_outcome_is_no_food() -> None:
    assert [outcome_word(w) for w in ("Taken", "refused", "part", "rat")] == [
        "taken",
        "refused",
        "part taken",
        None,
    ]


@pytest.mark.parametrize(
    ("text", "says"),
    [
        ("0xrat-pup", "give a count of 1 or more"),
        ("-2xrat-pup", "give a count of 1 or more"),
        ("hamster", "no prey class 'hamster'"),
        ("", "no prey is named"),
    ],
)
def test_a_dish_that_cannot_be_is_refused(text: str, says: str) -> None:
    with pytest.raises(BadInput, match=says):
        parse_dish(text, Display.METRIC)


def test_powders_are_named_by_code() -> None:
    assert check_powder("Calcium D3") == "calcium-d3" and check_powder("planned") == "planned"
    with pytest.raises(BadInput, match="no powder 'chalk'; one of calcium-d3"):
        check_powder("chalk")


def test_ranges_and_single_values() -> None:
    assert parse_span("10-14", Unit.DAYS, "interval") == (10, 14)
    assert parse_span("14 to 10", Unit.DAYS, "interval") == (10, 14)
    assert parse_span("2w", Unit.DAYS, "interval") == (14, 14)
    with pytest.raises(BadInput, match="is no range"):
        parse_span("1-2-3", Unit.DAYS, "interval")


def test_prey_is_kinds_or_classes() -> None:
    assert parse_prey("mouse, rat pups") == ("mouse", "rat-pup")
    with pytest.raises(BadInput, match="no prey class"):
        parse_prey("mouse,hamster")
    with pytest.raises(BadInput, match="no prey is named"):
        parse_prey(" , ")


def test_warm_hours_fit_into_a_day() -> None:
    assert parse_hours("10") == 10 and parse_hours("90min") == 1.5
    with pytest.raises(BadInput, match="give 0 to 24"):
        parse_hours("30")


def test_own_values_are_told() -> None:
    own = Own((10, 14), (5, 5), ("rat",), 8)
    assert own.words == (
        "every 10 to 14 days",
        "5 % of body mass",
        "prey: rat",
        "8 hours a day on the warm side",
    )
