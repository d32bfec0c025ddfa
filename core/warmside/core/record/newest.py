"""The newest events of many animals in one query, so that no answer grows with the years."""

from __future__ import annotations

from collections.abc import Collection
from datetime import date
from typing import Any

from sqlalchemy import Select, select

from warmside.core.record.tables import animal, event


def newest_of(kind: str, animals: Collection[int], on: date, most: int) -> Select[*tuple[Any, ...]]:
    """(animal id, day, data as text, event id) of at most `most` events of a kind an animal."""
    e, x = event.c, event.alias("x").c
    last = (
        select(x.id)
        .where(x.animal_id == animal.c.id, x.kind == kind, x.replaced_by.is_(None))
        .where(x.day <= on.isoformat())
        .order_by(x.day.desc(), x.at.desc(), x.id.desc())
        .limit(most)
        .correlate(animal)
    )
    return (
        select(e.animal_id, e.day, e.data, e.id)
        .select_from(animal.join(event, e.id.in_(last)))
        .where(animal.c.id.in_(animals))
    )
