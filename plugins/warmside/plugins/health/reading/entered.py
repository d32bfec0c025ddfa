"""What a step brought of orders, bottles and doses, held against the record."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from datetime import date

from warmside.api import BadInput, Book, Doubtful, Event, NewEvent, near_miss, quoted
from warmside.plugins.health.cases.refusing import refuse_impossible
from warmside.plugins.health.courses.entering import (
    dose_doubts,
    order_doubts,
    refuse_dose,
    refuse_order,
)
from warmside.plugins.health.courses.order import Course
from warmside.plugins.health.kinds import (
    APPOINTMENT,
    BOTTLE,
    CANCELLED,
    COURSE,
    DEATH,
    DIED,
    FOOD,
    SAMPLE,
    TREATED,
    VACCINATED,
)
from warmside.plugins.health.reading.begun import entries_from
from warmside.plugins.health.reading.cases import touched
from warmside.plugins.health.reading.courses import (
    bottle,
    courses_of,
    dose,
    order,
    same_name,
)

_NAMED_DAYS = {
    APPOINTMENT: ("due", "the appointment"),
    SAMPLE: ("expected", "the day for the result"),
    VACCINATED: ("again", "the day for the next vaccination"),
    FOOD: ("until", "the last day for the food"),
}
"""By kind the field with a day to come, and what it is called."""


def brought(book: Book, events: Sequence[Event], *, confirmed: bool) -> tuple[NewEvent, ...]:
    """The entries of cases that follow from a step; raises what is wrong or odd in it."""
    for code, entries, new in touched(book, events):
        refuse_impossible(code, entries, new)
    for event in events:
        _refuse_days(book, event)
    doubts = list(doubts_of(book, events))
    if doubts and not confirmed:
        raise Doubtful("; ".join(doubts))
    return tuple(entries_from(book, events))


def doubts_of(book: Book, events: Sequence[Event]) -> Iterator[str]:
    """What to ask about new orders and doses; BadInput where one of them cannot be."""
    for event in events:
        if event.kind == COURSE:
            refuse_order(one := order(event))
            yield from order_doubts(one)
        elif event.kind == BOTTLE:
            _refuse_bottle(event)
        elif event.kind == TREATED and event.animal_id is not None:
            yield from _of_dose(book, event, event.animal_id)


def _refuse_days(book: Book, event: Event) -> None:
    """BadInput for a day to come that is before its entry, and for what follows no death."""
    named = _NAMED_DAYS.get(event.kind)
    day = event.data[named[0]] if named else None
    if (
        named
        and day
        and date.fromisoformat(day) < event.day
        and not event.data.get("state") == CANCELLED
    ):
        raise BadInput(f"{named[1]}, {day}, is before the entry of {event.day}; look at both days")
    if event.kind == DEATH and not book.events(DIED, animal=event.animal_id, until=event.day):
        label = book.animals[event.animal_id or 0].label
        raise BadInput(
            f"{label} is not on record as dead on {event.day}; write down its death first: "
            "warmside health death"
        )


def _refuse_bottle(event: Event) -> None:
    has = bottle(event)
    if has.expires is not None and has.expires < event.day:
        raise BadInput(
            f"{has.of}: its last day of use, {has.expires}, was over on {event.day}; look at the "
            "label, and take back what is out of date"
        )


def _of_dose(book: Book, event: Event, animal: int) -> Iterator[str]:
    courses = courses_of(book, animal, max(event.day, book.today))
    mine = [c for c in courses if same_name(c.order.what, event.data["what"])]
    if not mine:
        yield from _slip(event, [c for c in courses if c.runs(event.day)])
        return
    made = dose(book, event)
    course = next((c for c in mine if made in (*c.doses, c.stopped)), mine[-1])
    refuse_dose(course, made)
    yield from dose_doubts(course, made)


def _slip(event: Event, running: Sequence[Course]) -> Iterator[str]:
    close = near_miss(event.data["what"], [c.order.what for c in running])
    if close:
        yield f"no course of {quoted(event.data['what'])} runs{close}"
