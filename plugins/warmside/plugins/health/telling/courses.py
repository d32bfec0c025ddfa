"""Courses in the keeper's words: a table, and one line for each that is over."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from datetime import date, datetime

from warmside.api import Column, Kind, Table, Tone, Words, counted
from warmside.plugins.health.courses.bottle import Bottle, amount_left, left_in
from warmside.plugins.health.courses.interval import interval_words
from warmside.plugins.health.courses.order import GIVEN, MISSED, PART, REFUSED, VOMITED, Course
from warmside.plugins.health.courses.schedule import next_dose, unrecorded

COLUMNS = (
    Column("what", "medicine"),
    Column("dose", "dose"),
    Column("every", "how often"),
    Column("since", "from", Kind.DATE),
    Column("until", "until", Kind.DATE),
    Column("state", "state"),
    Column("next", "next dose"),
    Column("doses", "doses so far", below=True),
    Column("by", "ordered by", below=True),
    Column("bottle", "in the house", below=True),
    Column("event", "event", text=False),
)
AS_ORDERED = Words(
    "Written down as a vet ordered it; nothing here is worked out or advised. What is unclear, the "
    "vet or pharmacy says.",
    Tone.CAUTION,
)
NONE_YET = "no course on record; write down what a vet ordered: warmside health order"


def table(
    courses: Sequence[Course], on: date, now: datetime, bottles: Mapping[int, Bottle]
) -> Table:
    """All courses with what became of their doses, and the bottle of each by its order's event."""
    rows = tuple(_row(c, on, now, bottles.get(c.order.event)) for c in courses)
    return Table("courses", COLUMNS, rows, empty=NONE_YET)


def _row(
    course: Course, on: date, now: datetime, bottle: Bottle | None
) -> tuple[str | date | int | None, ...]:
    order = course.order
    told = ", ".join(p for p in (order.dose, order.way) if p)
    return (
        order.what,
        told,
        interval_words(order.hours),
        order.start,
        course.last_day,
        state(course, on),
        _next(course, on, now),
        came_of(course, on) or "none yet",
        order.by,
        bottle_words(course, bottle) if bottle and course.runs(on) else None,
        order.event,
    )


def bottle_words(course: Course, bottle: Bottle) -> str:
    """`at most 4.8 ml left of 5 ml; use until 2026-08-01; keep it cool, dark`."""
    amount = course.order.amount
    left = left_in(bottle, amount, course.doses)
    told = bottle.holds.words
    if amount is not None and left is not None:
        told = f"at most {amount_left(bottle, amount, left).words} left of {told}"
    until = f"use until {bottle.expires}" if bottle.expires else ""
    keep = f"keep it {bottle.storage}" if bottle.storage else ""
    return "; ".join(part for part in (told, until, keep) if part)


def state(course: Course, on: date) -> str:
    """`runs`, `to come`, `stopped by the vet`, `replaced` or `over`."""
    if course.is_stopped(on):
        return "stopped by the vet"
    if on < course.order.start:
        return "to come"
    if course.runs(on):
        return "runs"
    return "replaced" if course.replaced and course.replaced <= on else "over"


def _next(course: Course, on: date, now: datetime) -> str | None:
    form = "%Y-%m-%d %H:%M" if course.order.clock else "%Y-%m-%d"
    if state(course, on) == "to come":
        return course.order.first.strftime(form)
    if not course.runs(on):
        return None
    after = (
        now - course.order.window if course.order.clock else datetime.combine(on, now.min.time())
    )
    slot = next_dose(course, after)
    if slot is None:
        return None
    return slot.planned.strftime(form)


def came_of(course: Course, on: date) -> str:
    """`12 given, 1 refused, 1 without a record`."""
    doses = [d for d in course.doses if d.day <= on]
    said = []
    for outcome in (GIVEN, PART, MISSED, REFUSED, VOMITED):
        if number := sum(1 for d in doses if d.outcome == outcome):
            said.append(f"{number} {outcome}")
    if number := len(unrecorded(course, on)):
        said.append(f"{number} without a record")
    return ", ".join(said)


def history_line(course: Course, on: date) -> str:
    """A course that is over, in one line."""
    order, last = course.order, course.last_day
    until = f" to {last}" if last else ""
    became = came_of(course, on) or f"nothing on record of {counted(len(course.slots), 'dose')}"
    end = f"; {state(course, on)}" if course.is_stopped(on) else ""
    return f"{order.words}, {order.start}{until}, ordered by {order.by}: {became}{end}"
