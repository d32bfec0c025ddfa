"""Which coming of an animal begins a quarantine, and how that is recorded."""

from __future__ import annotations

from datetime import date, timedelta

from warmside.api import Event, NewEvent
from warmside.plugins.quarantine.kinds import STARTED

LONG_AGO_DAYS = 365  # common practice, no source: an old arrival entered late begins nothing now
NOT_A_NEWCOMER = "bred here"


def needs_quarantine(came: Event, today: date) -> bool:
    """Whether an arrival or return asks for a quarantine: from elsewhere, within the last year."""
    recent = came.day >= today - timedelta(days=LONG_AGO_DAYS)
    return recent and came.data.get("how") != NOT_A_NEWCOMER


def start(came: Event, protocol: str) -> NewEvent:
    """The start of the quarantine that an arrival or return brings with it."""
    cause = "new arrival" if came.kind == "arrived" else f"return from a {came.data['after']}"
    data = {"protocol": protocol, "cause": cause, "arrival": came.id}
    return NewEvent(STARTED, came.day, data, came.animal_id, at=came.at)
