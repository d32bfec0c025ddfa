"""What is left in a bottle, and whether it lasts."""

from __future__ import annotations

from collections.abc import Iterable
from datetime import date
from fractions import Fraction

from msgspec import Struct
from msgspec.structs import replace

from warmside.plugins.health.courses.amount import Amount
from warmside.plugins.health.courses.order import MISSED, Course, Dose
from warmside.plugins.health.courses.schedule import planned

FEW_DOSES = 3
"""An order without an end wants a new bottle while there are fewer (common practice, no source)."""


class Bottle(Struct, frozen=True):
    """A bottle of a medicine as it was handed over; `expires` is the last day of its use."""

    event: int
    day: date
    of: str
    holds: Amount
    expires: date | None = None
    storage: str = ""


def left_in(bottle: Bottle, amount: Amount | None, doses: Iterable[Dose]) -> Fraction | None:
    """How many doses it still holds, at most; None where the order's amount cannot be counted so.

    A dose that was tried is gone, whether it stayed in or not.
    """
    held = amount.times_in(bottle.holds) if amount else None
    if held is None:
        return None
    tried = sum(1 for d in doses if d.day >= bottle.day and d.outcome != MISSED)
    return max(Fraction(0), held - tried)


def amount_left(bottle: Bottle, amount: Amount, doses_left: Fraction) -> Amount:
    """What is left in the bottle, in its own unit."""
    held = amount.times_in(bottle.holds)
    assert held
    return replace(bottle.holds, number=bottle.holds.number * doses_left / held)


def doses_to_come(course: Course, on: date) -> int | None:
    """The doses that the order still asks for from a day on; None where it has no end."""
    order, last = course.order, course.last_day
    if order.count is not None or not order.hours:
        tried = len([s for s in course.slots if s.dose or s.planned.date() < on])
        return max(0, (order.count or 1) - tried) if course.runs(on) else 0
    if last is None:
        return None
    recorded = {s.planned for s in course.slots if s.dose}
    return sum(1 for at in planned(order, last) if at.date() >= on and at not in recorded)


def lasts(doses_left: Fraction, to_come: int | None) -> bool:
    """Whether the bottle lasts to the end of the order; without an end, for a few doses more."""
    return doses_left >= (FEW_DOSES if to_come is None else to_come)
