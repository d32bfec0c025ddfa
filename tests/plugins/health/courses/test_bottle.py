"""What is left in a bottle, and the weight that a dose goes by."""

from __future__ import annotations

from datetime import date, datetime, time, timedelta
from fractions import Fraction

from hypothesis import given
from hypothesis import strategies as st
from msgspec.structs import replace

from warmside.plugins.health.courses.amount import amount_of
from warmside.plugins.health.courses.bottle import (
    Bottle,
    amount_left,
    doses_to_come,
    lasts,
    left_in,
)
from warmside.plugins.health.courses.order import GIVEN, MISSED, REFUSED, Dose, Order
from warmside.plugins.health.courses.schedule import course
from warmside.plugins.health.courses.weight import change_percent, goes_by_weight, is_changed

DAY = date(2026, 3, 5)
TENTH = amount_of("0.1 ml")
ORDER = Order(1, "medicine A", "0.1 ml", 24, DAY, time(8), count=14, amount=TENTH)
BOTTLE = Bottle(2, DAY, "medicine A", amount_of("1 ml"))


def doses(*outcomes: str) -> list[Dose]:
    return [
        Dose(n, DAY + timedelta(n), o, datetime.combine(DAY + timedelta(n), time(8)))
        for n, o in enumerate(outcomes)
    ]


def test_a_dose_that_was_tried_is_gone_and_one_that_was_missed_is_not() -> None:
    left = left_in(BOTTLE, TENTH, doses(GIVEN, MISSED, REFUSED))
    assert left == 8
    assert amount_left(BOTTLE, TENTH, left).words == "0.8 ml"


def test_nothing_is_said_where_the_amount_cannot_be_counted_in_the_bottle() -> None:
    assert left_in(BOTTLE, amount_of("2 drops"), []) is None
    assert left_in(BOTTLE, None, []) is None


def test_it_lasts_where_it_holds_what_is_still_to_give() -> None:
    run = course(ORDER, doses(GIVEN, GIVEN), DAY + timedelta(30), None)
    assert doses_to_come(run, DAY + timedelta(2)) == 12
    assert not lasts(Fraction(11), 12) and lasts(Fraction(12), 12)
    open_end = course(replace(ORDER, count=None), [], DAY + timedelta(30), None)
    assert doses_to_come(open_end, DAY) is None


@given(st.integers(0, 13), st.integers(1, 14))
def test_what_was_tried_and_what_is_to_come_are_the_order(tried: int, count: int) -> None:
    order = replace(ORDER, count=count)
    tried = min(tried, count)
    run = course(order, doses(*[GIVEN] * tried), DAY + timedelta(60), None)
    on = DAY + timedelta(tried)
    assert doses_to_come(run, on) == count - tried


def test_a_tenth_more_or_less_is_a_change() -> None:
    assert is_changed(400, 360) and is_changed(400, 440) and not is_changed(400, 361)
    assert change_percent(400, 360) == -10
    assert goes_by_weight("5 mg/kg") and goes_by_weight("0.1 ml per 100 g of weight")
    assert not goes_by_weight("0.1 ml") and not goes_by_weight("5 mg")
