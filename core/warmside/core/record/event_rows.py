"""Events as the file holds them: their columns."""

from __future__ import annotations

from datetime import date, datetime
from typing import Any

from msgspec.json import decode

from warmside.core.record.entities import Event

EVENT_COLUMNS = "id, kind, animal_id, enclosure_id, day, at, data, note, step_id, replaced_by"


def event_from(row: tuple[Any, ...]) -> Event:
    """An event from its columns in the order of EVENT_COLUMNS."""
    id, kind, animal_id, enclosure_id, day, at, data, note, step_id, replaced_by = row
    return Event(
        id,
        kind,
        animal_id,
        enclosure_id,
        date.fromisoformat(day),
        datetime.fromisoformat(at) if at else None,
        decode(data),
        note,
        step_id,
        replaced_by,
    )
