"""What other plugins may ask of this one: when the next meal is due."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date

from warmside.api import About, DayRange, Pair
from warmside.plugins.feeding.planning.whole import whole_plan
from warmside.plugins.feeding.reading import Reading

NEXT_MEAL = "next meal"


def expected(reading: Reading, what: str, about: About | Pair) -> Iterator[DayRange]:
    """First and last day of the next meal of an animal here; nothing while a wait is open."""
    if what != NEXT_MEAL or isinstance(about, Pair) or about.animal_id is None:
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
