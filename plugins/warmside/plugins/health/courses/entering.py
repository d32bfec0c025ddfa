"""Orders that cannot be, and doses that the keeper is asked about before they are written."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import timedelta

from warmside.api import BadInput, counted
from warmside.plugins.health.courses.interval import DAY_HOURS, interval_words
from warmside.plugins.health.courses.order import MISSED, STOPPED, Course, Dose, Order, Slot

SELDOM_HOURS = 6
"""An order for home with doses closer than that is asked about (common practice, no source)."""
_ASK_VET = "ask the vet who ordered it"


def refuse_order(order: Order) -> None:
    """BadInput where an order cannot be."""
    if order.until is not None and order.until < order.start:
        raise BadInput(
            f"{order.what}: until {order.until} is before its first dose on {order.start}; "
            "look at both days"
        )
    if order.hours % DAY_HOURS and order.clock is None:
        raise BadInput(
            f"{order.what} {interval_words(order.hours)} needs the time of its first dose: "
            "--clock 08:00"
        )
    if order.until is not None and order.count is not None:
        raise BadInput(f"{order.what}: give its last day or its number of doses, not both")
    if order.window_hours is not None and order.window_hours > (order.hours or DAY_HOURS) / 2:
        raise BadInput(
            f"{order.what}: a window of more than half the time to the next dose fits two doses; "
            "give a shorter one"
        )


def order_doubts(order: Order) -> Iterator[str]:
    """What to ask the keeper about an order."""
    if order.hours and order.until is None and order.count is None:
        yield f"{order.what} has no last day and no number of doses: until the vet stops it?"
    if 0 < order.hours < SELDOM_HOURS:
        yield f"{interval_words(order.hours)} is {DAY_HOURS // order.hours} doses a day"


def refuse_dose(course: Course, dose: Dose) -> None:
    """BadInput for a dose of a course that has ended, or had not begun."""
    order, last = course.order, course.last_day
    if dose.outcome == STOPPED:
        return
    if dose.day < order.start:
        raise BadInput(f"{order.what} begins on {order.start}; look at the day of the dose")
    stopped = course.stopped
    over = stopped is not None and (stopped.day, stopped.at or dose.at) < (dose.day, dose.at)
    if over or (last is not None and dose.day > last + timedelta(days=1)):
        assert last is not None
        how = "was stopped by the vet" if stopped else "ended"
        raise BadInput(
            f"the course of {order.what} {how} on {last}; a new order is recorded with: "
            "warmside health order"
        )


def dose_doubts(course: Course, dose: Dose) -> Iterator[str]:
    """What to ask about a dose that was tried: a second one, one too late or too early."""
    if dose.outcome in (MISSED, STOPPED):
        return
    order = course.order
    if dose in course.extra:
        before = [d for d in course.doses if d.sorted_by < dose.sorted_by and d.outcome != MISSED]
        said = f", after one on {_when(before[-1])}" if before else ""
        yield f"this would be a dose of {order.what} more than was ordered{said}: {_ASK_VET}"
        return
    slot = next((s for s in course.slots if s.dose == dose), None)
    if slot is not None:
        yield from _off_its_time(order, slot, dose)


def _off_its_time(order: Order, slot: Slot, dose: Dose) -> Iterator[str]:
    if order.clock is None or dose.at is None:
        off = timedelta(days=(dose.day - slot.planned.date()).days)
        window = timedelta(0)
    else:
        off, window = dose.at - slot.planned, order.window
    if abs(off) > window:
        way = "after" if off > timedelta(0) else "before"
        at = slot.planned.isoformat(" ", "minutes") if order.clock else str(slot.planned.date())
        yield (
            f"{order.what} was due on {at}, this is {_span(abs(off))} {way} that: {_ASK_VET} "
            "before it is given; never two at once"
        )


def _span(off: timedelta) -> str:
    hours = off.total_seconds() / 3600
    if hours >= 48 or not hours % 24:
        return counted(round(hours / 24), "day")
    return counted(round(hours), "hour") if hours >= 1 else counted(round(hours * 60), "minute")


def _when(dose: Dose) -> str:
    return dose.at.isoformat(" ", "minutes") if dose.at else str(dose.day)
