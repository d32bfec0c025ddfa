"""Rounds of meals and own feeding as a keeper types them."""

from __future__ import annotations

import pytest

from warmside.core.values.errors import BadInput
from warmside.core.values.units import Unit
from warmside.plugins.feeding.care.own import Own, parse_hours, parse_prey, parse_span
from warmside.plugins.feeding.meals.dishes import check_powder, parse_dish


@pytest.mark.parametrize(
    ("text", "count", "dish"),
    [
        ("mouse-adult", None, ("mouse-adult", 1)),
        ("adult mice", 3, ("mouse-adult", 3)),
        ("2xrat-pup", None, ("rat-pup", 2)),
        ("2 × rat pup", 5, ("rat-pup", 2)),
    ],
)
def test_a_dish_is_a_count_and_a_class(text: str, count: int | None, dish: tuple[str, int]) -> None:
    found = parse_dish(text, count)
    assert (found.prey.code, found.count) == dish


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
        parse_dish(text)


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
