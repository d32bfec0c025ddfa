"""Offers: from a feeding event, the newest meal, the newest refusal."""

from __future__ import annotations

from datetime import date

import pytest

from warmside.plugins.feeding.meals.records import Offer, last_meal, last_refusal, offer_of

EATEN = Offer(date(2026, 4, 1), "rat-small", 1, 1)
PART = Offer(date(2026, 4, 20), "mouse-adult", 2, 1)
REFUSED = Offer(date(2026, 4, 10), "rat-small", 1, 0)


def test_a_meal_eaten_in_part_is_a_meal() -> None:
    assert last_meal((PART, REFUSED, EATEN)) is PART
    assert last_refusal((PART, REFUSED, EATEN)) is REFUSED


def test_a_meal_that_came_back_was_neither_eaten_nor_refused() -> None:
    back = Offer(date(2026, 4, 25), "rat-small", 1, 1, came_back=True)
    assert last_meal((back, EATEN)) is EATEN and last_refusal((back, EATEN)) is None


def test_without_offers_there_is_neither() -> None:
    assert last_meal(()) is None and last_refusal(()) is None


@pytest.mark.parametrize(
    ("outcome", "eaten"), [("taken", 2), ("part taken", 1), ("refused", 0), ("regurgitated", 2)]
)
def test_an_offer_is_read_from_a_feeding_event(outcome: str, eaten: float) -> None:
    offer = offer_of(date(2026, 4, 1), "adult mouse", 2, 50, outcome, 9)
    assert (offer.eaten, offer.each_g, offer.event) == (eaten, 25, 9)
    assert offer.refused == (outcome == "refused")
