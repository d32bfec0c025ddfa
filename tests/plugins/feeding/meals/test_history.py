"""From feeding events to offers and regurgitations."""

from __future__ import annotations

from datetime import date, timedelta

from hypothesis import given
from hypothesis import strategies as st

from warmside.plugins.feeding.meals.history import Served, meals_of

DAY = date(2026, 3, 5)


def served(ago: int, outcome: str = "taken", item: str = "adult mouse", event: int = 0) -> Served:
    return Served(DAY - timedelta(days=ago), item, 1, None, outcome, event or 1000 - ago)


def test_offers_come_oldest_first() -> None:
    found = meals_of([served(3), served(9, "refused")], {})
    assert [o.day for o in found.offers] == [DAY - timedelta(days=9), DAY - timedelta(days=3)]
    assert [o.refused for o in found.offers] == [True, False]


def test_a_regurgitation_soon_after_a_meal_is_about_that_meal() -> None:
    found = meals_of([served(9), served(7, "regurgitated", "adult mice")], {})
    assert len(found.offers) == 1 and found.regurgitations == (DAY - timedelta(days=7),)
    assert found.offers[0].came_back


def test_a_regurgitation_long_after_the_last_meal_is_a_meal_of_its_own() -> None:
    found = meals_of([served(20), served(7, "regurgitated")], {})
    assert [o.came_back for o in found.offers] == [False, True]
    assert len(found.regurgitations) == 1


def test_a_regurgitation_of_other_food_is_a_meal_of_its_own() -> None:
    found = meals_of([served(9), served(7, "regurgitated", "rat pup")], {})
    assert len(found.offers) == 2


def test_a_powder_belongs_to_the_insects_of_its_day() -> None:
    day = DAY - timedelta(days=2)
    food = [served(2, item="leafy greens", event=1), served(2, item="cricket nymph", event=2)]
    found = meals_of(food, {day: ["calcium"]})
    assert [o.dust for o in found.offers] == [None, "calcium"]


@given(
    st.lists(st.tuples(st.integers(0, 90), st.sampled_from(("taken", "refused", "regurgitated"))))
)
def test_nothing_is_lost_but_reports_of_a_meal_recorded_before(rows: list[tuple[int, str]]) -> None:
    events = [served(ago, outcome, event=n + 1) for n, (ago, outcome) in enumerate(rows)]
    found = meals_of(events, {})
    reports = len(events) - len(found.offers)
    assert 0 <= reports <= len(found.regurgitations)
    assert len(found.regurgitations) == sum(1 for _, outcome in rows if outcome == "regurgitated")
