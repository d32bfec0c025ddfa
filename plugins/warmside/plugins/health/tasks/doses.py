"""The doses of a day, each a task at its time."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date, datetime
from zoneinfo import ZoneInfo

from warmside.api import About, Basis, Mark, Source, Task
from warmside.plugins.health.courses.order import Course, Slot
from warmside.plugins.health.courses.schedule import due_on, on_the_wall
from warmside.plugins.health.kinds import TREATED

LATE = (
    "its time is over: given late only if the vet says so, never two at once; if it was not given, "
    "settle it with =missed"
)


def dose_tasks(
    animal: int, course: Course, on: date, zone: ZoneInfo, now: datetime
) -> Iterator[Task]:
    """A task for each dose of a day without a record; `now` is what the wall's clock shows."""
    for slot in due_on(course, on):
        yield dose_task(animal, course, slot, zone, now)


def dose_task(animal: int, course: Course, slot: Slot, zone: ZoneInfo, now: datetime) -> Task:
    """One dose, as ordered, at its time."""
    order, at = course.order, on_the_wall(slot.planned, zone)
    clock = f" at {at:%H:%M}" if order.clock else ""
    told = ", ".join(p for p in (order.dose, order.way) if p)
    return Task(
        f"give {order.what}{clock}, {told}",
        slot.planned.date(),
        Basis(f"{order.words}, ordered by {order.by}", ordered_by(order.by), (order.event,)),
        About(animal),
        settles=TREATED,
        data={
            "what": order.what,
            "dose": told,
            "by": order.by,
            "planned": slot.planned.isoformat(" ", "minutes"),
        },
        note="; ".join(_notes(course, at, now)),
        key=f"dose.{order.what}{clock}",
    )


def _notes(course: Course, at: datetime, now: datetime) -> Iterator[str]:
    order = course.order
    if now > at + order.window:
        yield LATE
    elif order.clock is not None:
        yield f"in time until {at + order.window:%H:%M}"
    if order.food:
        yield order.food
    if order.watch:
        yield f"watch for {order.watch}"
    yield "refused or brought up: write it down and ask the vet, give no second dose"


def ordered_by(vet: str) -> Source:
    """The order as the source of a dose: the keeper's record of what a vet said."""
    return Source(f"as {vet} ordered it, written down by the keeper", Mark.KEEPERS_OWN)
