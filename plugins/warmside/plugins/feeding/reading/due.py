"""The parts of diets that may be fed on a day."""

from __future__ import annotations

from collections.abc import Collection, Mapping
from datetime import date

from warmside.plugins.feeding.planning.whole import PartPlan, due_parts, whole_plan
from warmside.plugins.feeding.reading.animals import Reading

Planned = tuple[int, PartPlan]
Parts = Mapping[int, Collection[str]]


def due_animals(reading: Reading, day: date, without: Parts | None = None) -> list[Planned]:
    """The parts of diets that may be fed on a day, but those in `without`, with their plans.

    `without` holds keys of parts by animal.
    """
    found = list[Planned]()
    for animal_id in reading.here():
        left_out = without.get(animal_id, ()) if without else ()
        quick = reading.subject(animal_id, ask=False)
        keys = due_parts(quick, day, reading.rules, left_out) if quick else ()
        if keys:
            asked = reading.subject(animal_id)
            assert asked is not None
            plans = whole_plan(asked, day, reading.rules, keys)
            found += [(animal_id, p) for p in plans if p.plan.is_due(day)]
    return found
