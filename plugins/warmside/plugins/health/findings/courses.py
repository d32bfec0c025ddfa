"""What is wrong in a course: doses without a record or not taken, another weight, the bottle."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date, timedelta

from warmside.api import (
    OWN_RECORDS,
    About,
    Basis,
    Display,
    Event,
    Finding,
    Level,
    Unit,
    counted,
    format_quantity,
)
from warmside.plugins.health.courses.bottle import (
    Bottle,
    amount_left,
    doses_to_come,
    lasts,
    left_in,
)
from warmside.plugins.health.courses.order import MISSED, TAKEN_UP, Course
from warmside.plugins.health.courses.schedule import unrecorded
from warmside.plugins.health.courses.weight import change_percent, is_changed

TOLD_AFTER_END = timedelta(days=14)
"""So long after its end doses without a record are asked about."""
NAMED = 3


def is_told(course: Course, on: date) -> bool:
    """Whether anything of a course is still asked about: while it runs and a while after."""
    last = course.last_day
    return course.order.start <= on and (last is None or on <= last + TOLD_AFTER_END)


def without_record(animal: int, code: str, course: Course, on: date) -> Finding | None:
    """Doses of days before of which nobody wrote what became of them."""
    slots = unrecorded(course, on)
    if not slots:
        return None
    order = course.order
    form = "%Y-%m-%d %H:%M" if order.clock else "%Y-%m-%d"
    times = [s.planned.strftime(form) for s in slots]
    shown = ", ".join(times[:NAMED]) + (" and more" if len(times) > NAMED else "")
    words = (
        f"no record of {counted(len(slots), 'dose')} of {order.what} ({shown}): was it given? "
        f'warmside record treated {code} --what "{order.what}" --at "{times[0]}" '
        "--outcome given, or missed. Make up for none on your own, never two at once: ask the vet"
    )
    basis = Basis("planned doses without a record", OWN_RECORDS, (order.event,))
    return Finding("health.unrecorded", Level.LOOK_SOON, words, basis, About(animal))


def not_taken(animal: int, course: Course, on: date) -> Finding | None:
    """The last dose did not go in, or not whole: the vet says how it goes on."""
    doses = [d for d in course.doses if d.day <= on]
    if not doses or doses[-1].outcome in (TAKEN_UP[0],) or not course.runs(on):
        return None
    last = doses[-1]
    at = f"{last.at:%Y-%m-%d %H:%M}" if last.at else str(last.day)
    done = "was missed" if last.outcome == MISSED else f"was {last.outcome}"
    words = (
        f"the dose of {course.order.what} of {at} {done}: ask {course.order.by} how it goes on; "
        "until then no second dose and no larger one. It stays here until the next dose is given"
    )
    basis = Basis("the last dose on record", OWN_RECORDS, (last.event,))
    return Finding("health.not_taken", Level.LOOK_SOON, words, basis, About(animal))


def other_weight(
    animal: int, course: Course, ordered_g: float | None, now: Event | None, show: Display
) -> Finding | None:
    """The weight that a dose was worked out for is no longer the animal's."""
    if ordered_g is None or now is None or not is_changed(ordered_g, now.data["mass_g"]):
        return None
    order, now_g = course.order, now.data["mass_g"]
    then, today = (format_quantity(g, Unit.MASS, show) for g in (ordered_g, now_g))
    change = change_percent(ordered_g, now_g)
    way = "more" if change > 0 else "less"
    words = (
        f"{order.what} was ordered for a weight of {then}, on {now.day} it was {today}, "
        f"{abs(change):.0f} % {way}: ask {order.by} whether the dose still holds; change nothing "
        "on your own"
    )
    basis = Basis("a tenth of change since the order", OWN_RECORDS, (order.event, now.id))
    return Finding("health.other_weight", Level.LOOK_SOON, words, basis, About(animal))


def bottle(animal: int, course: Course, has: Bottle | None, on: date) -> Iterator[Finding]:
    """A bottle that is past its day, or will not last."""
    if has is None:
        return
    order = course.order
    if has.expires is not None and has.expires < on:
        words = (
            f"the {order.what} in the house was to be used until {has.expires}: ask {order.by} "
            "before the next dose"
        )
        basis = Basis("its last day of use", OWN_RECORDS, (has.event,))
        yield Finding("health.bottle", Level.LOOK_SOON, words, basis, About(animal))
    left = left_in(has, order.amount, course.doses)
    to_come = doses_to_come(course, on)
    if left is None or order.amount is None or lasts(left, to_come):
        return
    about = amount_left(has, order.amount, left).words
    wanted = "" if to_come is None else f" of {to_come} still to give"
    words = (
        f"about {about} of {order.what} left, {counted(int(left), 'dose')}{wanted}: ask "
        f"{order.by} for more in time"
    )
    basis = Basis("what the bottle held less the doses since", OWN_RECORDS, (has.event,))
    yield Finding("health.bottle", Level.NOTE, words, basis, About(animal))
