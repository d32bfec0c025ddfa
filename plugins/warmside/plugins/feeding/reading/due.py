"""The parts of diets that may be fed on a day."""

from __future__ import annotations

from datetime import date

from warmside.plugins.feeding.planning.whole import PartPlan, due_parts, whole_plan
from warmside.plugins.feeding.reading.animals import Reading

Planned = tuple[int, PartPlan]
Parts = frozenset[tuple[int, str]]


def due_animals(reading: Reading, day: date, without: Parts = frozenset()) -> list[Planned]:
    """The parts of diets that may be fed on a day, but those in `without`, with their plans."""
    found = list[Planned]()
    for animal_id in reading.here():
        quick = reading.subject(animal_id, ask=False)
        keys = due_parts(quick, day, reading.rules) if quick else ()
        if any((animal_id, key) not in without for key in keys):
            asked = reading.subject(animal_id)
            assert asked is not None
            plans = whole_plan(asked, day, reading.rules)
            found += [
                (animal_id, p)
                for p in plans
                if (animal_id, p.key) not in without and p.plan.is_due(day)
            ]
    return found
