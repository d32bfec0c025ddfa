"""What other plugins may ask of this one: when the next meal is due, and of a winter rest."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date

from warmside.api import OWN_RECORDS, About, Basis, DayRange, Pair
from warmside.plugins.feeding.planning.whole import whole_plan
from warmside.plugins.feeding.reading import Reading
from warmside.plugins.feeding.reading.winter import course_of

NEXT_MEAL, WINTER_REST = "next meal", "winter rest"


def expected(reading: Reading, what: str, about: About | Pair) -> Iterator[DayRange]:
    """The days of the next meal of an animal here, nothing while a wait is open; or of its rest."""
    if isinstance(about, Pair) or about.animal_id is None:
        return
    if what == WINTER_REST:
        yield from _rest(reading, about.animal_id)
        return
    subject = reading.subject(about.animal_id)
    if subject is None or not reading.where(about.animal_id).custody.is_here:
        return
    plans = (p.plan for p in whole_plan(subject, reading.on, reading.rules))
    known = [p for p in plans if p.due_from and p.due_by]
    if known:
        found = min(known, key=lambda p: (p.due_from or date.max, p.due_by or date.max))
        assert found.due_from and found.due_by
        yield DayRange(found.due_from, found.due_by, found.interval.basis)


def _rest(reading: Reading, animal_id: int) -> Iterator[DayRange]:
    """From the last meal to the first one after the planned rest that is on."""
    course = course_of(reading, animal_id)
    if course is not None and course.rest.stop <= reading.on:
        rest = course.rest
        rule = f"winter rest planned from {rest.cool} to {rest.warm}"
        basis = Basis(rule, OWN_RECORDS, (rest.event,))
        yield DayRange(rest.stop, max(rest.food, reading.on), basis)
